#include <compline/harmony/transpose.hpp>

#include <array>
#include <cstddef>

namespace compline::harmony {

namespace {

constexpr int octave = 12;  // in semitones; as many fifths sound the same, too
constexpr int letters = 7;  // of an octave; as many fifths are a sharp
constexpr std::array<int, letters> letters_in_fifths = {0, 2, 4, -1, 1, 3, 5};  // C to B
constexpr int leftmost_plain = -8;                                              // F♭
constexpr int rightmost_plain = 12;                                             // B♯

/// From 0 on, whatever the sign.
int modulo(int number, int of) { return (number % of + of) % of; }

int within(int place, int leftmost, int rightmost) {
    while (place < leftmost) place += octave;
    while (place > rightmost) place -= octave;
    return place;
}

/// Whether the scale of a major key has the note: from its fourth, a fifth to the left, to its
/// seventh.
bool is_of_key(int place, int sharps) { return place >= sharps - 1 && place <= sharps + 5; }

/// C♭, F♭, E♯ and B♯: white keys by another name.
bool is_odd(int place) { return place < -6 || place > 10; }

int readable_root(int place, int sharps) {
    place = within(place, leftmost_plain, rightmost_plain);
    if (!is_odd(place) || is_of_key(place, sharps)) return place;
    return place < 0 ? place + octave : place - octave;
}

}  // namespace

int place_in_fifths(const Spelling& spelling) {
    return letters_in_fifths[static_cast<std::size_t>(spelling.letter)] +
           letters * spelling.accidental;
}

Spelling spelling_at(int place) {
    // F, the leftmost of the plain letters, is at -1.
    constexpr std::array row = {Letter::F, Letter::C, Letter::G, Letter::D,
                                Letter::A, Letter::E, Letter::B};
    const int from_f = place + 1;
    const int letter = modulo(from_f, letters);
    return {row[static_cast<std::size_t>(letter)], (from_f - letter) / letters};
}

int fifths_of(const Interval& interval) {
    // So that a fifth, four letters and seven semitones, is one, and an octave nothing.
    return letters * interval.semitones - octave * interval.letters;
}

Interval interval_between(const Spelling& from, const Spelling& to) {
    const int fifths = place_in_fifths(to) - place_in_fifths(from);
    Interval interval{modulo(4 * fifths, letters), 0};
    // That many letters have the semitones with which the way along the row comes out.
    interval.semitones = (fifths + octave * interval.letters) / letters;
    if (interval.semitones > octave / 2) {
        interval.letters -= letters;
        interval.semitones -= octave;
    }
    return interval;
}

Chord transposed(Chord chord, int fifths, int sharps) {
    const int written = place_in_fifths(chord.root);
    const int root = readable_root(written + fifths, sharps);
    if (chord.bass) {
        const int bass = place_in_fifths(*chord.bass) + root - written;
        chord.bass = spelling_at(within(bass, leftmost_plain, rightmost_plain));
    }
    chord.root = spelling_at(root);
    return chord;
}

}  // namespace compline::harmony
