#include "measure.d/chord_spelling.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace compline::measure {

namespace {

constexpr int none = -1;

/// A symbol's beginning: third, fifth, seventh or sixth, its highest natural tension and what is
/// stacked below it.
struct Beginning {
    std::string_view words;
    int third;
    int fifth;
    int seventh;
    int highest;
    int below;
};
// Longer words before those that they begin with.
// clang-format off
constexpr std::array<Beginning, 37> beginnings = {{
    {"maj13",    4, 7, 11, 9, 2},
    {"maj11",    4, 7, 11, 5, 2},
    {"maj9sus4", 5, 7, 11, 2, none},
    {"maj9",     4, 7, 11, 2, none},
    {"maj7sus4", 5, 7, 11, none, none},
    {"maj7",     4, 7, 11, none, none},
    {"mmaj13",   3, 7, 11, 9, 2},
    {"mmaj11",   3, 7, 11, 5, 2},
    {"mmaj9",    3, 7, 11, 2, none},
    {"mmaj7",    3, 7, 11, none, none},
    {"m6/9",     3, 7, 9, 2, none},
    {"m6",       3, 7, 9, none, none},
    {"m13",      3, 7, 10, 9, 2},
    {"m11",      3, 7, 10, 5, 2},
    {"m9",       3, 7, 10, 2, none},
    {"m7",       3, 7, 10, none, none},
    {"dimmaj7",  3, 6, 11, none, none},
    {"dim7",     3, 6, 9, none, none},
    {"dim",      3, 6, 9, none, none},  // played as the four-note chord
    {"m",        3, 7, none, none, none},
    {"aug",      4, 8, none, none, none},
    {"sus2",     2, 7, none, none, none},
    {"sus4",     5, 7, none, none, none},
    {"5",        none, 7, none, none, none},
    {"6/9",      4, 7, 9, 2, none},
    {"6sus4",    5, 7, 9, none, none},
    {"6",        4, 7, 9, none, none},
    {"7alt",     4, none, 10, none, none},
    {"7sus4",    5, 7, 10, none, none},
    {"7sus2",    2, 7, 10, none, none},
    {"7",        4, 7, 10, none, none},
    {"9sus4",    5, 7, 10, 2, none},
    {"9",        4, 7, 10, 2, none},
    {"11",       4, 7, 10, 5, 2},
    {"13sus4",   5, 7, 10, 9, 2},
    {"13",       4, 7, 10, 9, 2},
    {"",         4, 7, none, none, none},
}};
// clang-format on

void set(Semitones& set, int at) {
    if (at != none) set.set(static_cast<std::size_t>(at));
}
Semitones only(std::initializer_list<int> tones) {
    Semitones all;
    for (const int tone : tones) set(all, tone);
    return all;
}

bool take(std::string_view& words, std::string_view word) {
    if (words.substr(0, word.size()) != word) return false;
    words.remove_prefix(word.size());
    return true;
}

ChordSpelling begin(std::string_view& words) {
    const auto* const found = std::find_if(
        beginnings.begin(), beginnings.end(),
        [&](const Beginning& row) { return words.substr(0, row.words.size()) == row.words; });
    ChordSpelling chord;
    words.remove_prefix(found->words.size());
    if (found->third != none) chord.third = found->third;
    set(chord.fifths, found->fifth);
    if (found->seventh != none) chord.seventh = found->seventh;
    chord.diminished = found->third == 3 && found->fifth == 6 && found->seventh == 9;
    chord.sixth = found->seventh == 9 && !chord.diminished;
    chord.sus = found->third == 5 || found->third == 2 || found->words == "11";
    chord.dominant = found->seventh == 10 && found->third != 3;
    if (chord.sixth) chord.colours.push_back(only({9}));
    if (found->highest != none) chord.colours.push_back(only({found->highest}));
    if (found->words == "7alt") chord.colours.push_back(only({1, 3, 6, 8}));
    set(chord.stack, found->below);
    return chord;
}

/// An altered tension: what it is, and the natural one that goes.
void alter(ChordSpelling& chord, int tone, int natural) {
    chord.stack.reset(static_cast<std::size_t>(natural));
    const auto plain = std::find(chord.colours.begin(), chord.colours.end(), only({natural}));
    if (plain != chord.colours.end() && !chord.sixth) chord.colours.erase(plain);
    chord.colours.push_back(only({tone}));
}

bool altered_fifth_written(const ChordSpelling& chord) {
    return has(chord.fifths, 6) || has(chord.fifths, 8);
}

void alter_fifth(ChordSpelling& chord, int tone) {
    if (!altered_fifth_written(chord)) chord.fifths.reset();
    set(chord.fifths, tone);
}

/// The next alteration of a symbol; false for what is none.
bool alter(ChordSpelling& chord, std::string_view& words) {
    struct Tension {
        std::string_view words;
        int tone;
        int natural;
    };
    static constexpr std::array<Tension, 5> tensions = {
        {{"b9", 1, 2}, {"#9", 3, 2}, {"#11", 6, 5}, {"b13", 8, 9}, {"b6", 8, 9}}};
    for (const auto& row : tensions) {
        if (take(words, row.words)) {
            alter(chord, row.tone, row.natural);
            return true;
        }
    }
    if (take(words, "b5")) return alter_fifth(chord, 6), true;
    if (take(words, "#5")) return alter_fifth(chord, 8), true;
    if (take(words, "add9")) return chord.colours.push_back(only({2})), true;
    if (take(words, "add11")) return chord.colours.push_back(only({5})), true;
    if (take(words, "add13")) return chord.colours.push_back(only({9})), true;
    if (take(words, "no3")) return chord.third.reset(), true;
    if (take(words, "no5")) return chord.fifths.reset(), true;
    return false;
}

void forbid_thirds_and_fifths(ChordSpelling& chord, bool eleventh) {
    auto& no = chord.forbidden;
    if (chord.third == 3) set(no, 4);
    if (chord.third == 4) set(no, 3);
    if (chord.sus && !eleventh) no |= only({3, 4});
    if (altered_fifth_written(chord) || chord.symbol == "7alt") set(no, 7);
}

void forbid_sevenths(ChordSpelling& chord) {
    auto& no = chord.forbidden;
    if (chord.seventh == 11) set(no, 10);
    if (chord.seventh == 10) set(no, 11);
    if (chord.sixth) set(no, 10);
    if (!chord.seventh && chord.third == 4) set(no, 10);
}

void forbid_tensions(ChordSpelling& chord) {
    auto& no = chord.forbidden;
    Semitones written = chord.stack;
    for (const auto& colour : chord.colours) written |= colour;
    if (has(written, 1) || (has(written, 3) && chord.third == 4)) set(no, 2);
    if (has(written, 2)) set(no, 1);
    if (has(written, 6)) set(no, 5);
    if (has(written, 8)) set(no, 9);
    if (has(written, 9) && !chord.sixth) set(no, 8);
}

}  // namespace

Semitones moved(const Semitones& set, int by) {
    const auto up = static_cast<std::size_t>((by % 12 + 12) % 12);
    return set << up | set >> (12 - up);
}

Semitones ChordSpelling::chord_tones() const {
    Semitones tones = fifths | only({0});
    if (third) set(tones, *third);
    if (seventh) set(tones, *seventh);
    if (bass) set(tones, *bass);
    return tones;
}

Semitones ChordSpelling::asked() const {
    Semitones tones = chord_tones() | stack;
    for (const auto& colour : colours) tones |= colour;
    return tones;
}

ChordSpelling spell_out_words(std::string_view words) {
    std::string plain(words);
    const auto is_filler = [](char c) { return c == '(' || c == ')' || c == ',' || c == ' '; };
    plain.erase(std::remove_if(plain.begin(), plain.end(), is_filler), plain.end());
    std::string_view rest(plain);
    auto chord = begin(rest);
    const bool eleventh = plain.substr(0, 2) == "11";
    while (!rest.empty()) {
        if (!alter(chord, rest)) throw std::invalid_argument("what is " + plain + "?");
    }
    chord.symbol = plain;
    forbid_thirds_and_fifths(chord, eleventh);
    forbid_sevenths(chord);
    forbid_tensions(chord);
    chord.forbidden &= ~chord.asked();
    return chord;
}

ChordSpelling spell_out(const harmony::Chord& chord) {
    auto upper = chord;
    upper.bass.reset();
    const auto root = chord.root.name(harmony::Accidentals::letters);
    auto spelling =
        spell_out_words(upper.symbol(harmony::Accidentals::letters).substr(root.size()));
    spelling.symbol = chord.symbol(harmony::Accidentals::letters);
    spelling.root = chord.root.pitch_class();
    if (chord.bass) {
        spelling.bass = (chord.bass->pitch_class() - spelling.root + 12) % 12;
        spelling.forbidden.reset(static_cast<std::size_t>(*spelling.bass));
    }
    return spelling;
}

std::vector<int> notes_of(const guitar::Shape& shape) {
    constexpr std::array<int, 6> open = {64, 59, 55, 50, 45, 40};
    std::vector<int> notes;
    for (std::size_t string = 0; string < open.size(); ++string) {
        if (shape.frets[string]) notes.push_back(open[string] + *shape.frets[string]);
    }
    std::sort(notes.begin(), notes.end());
    return notes;
}

Semitones above_root(const std::vector<int>& notes, const ChordSpelling& chord) {
    Semitones tones;
    for (const int note : notes) set(tones, (note - chord.root + 120) % 12);
    return tones;
}

}  // namespace compline::measure
