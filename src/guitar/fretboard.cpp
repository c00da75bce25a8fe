#include <compline/guitar/fretboard.hpp>
#include <compline/text/phrase.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <utility>

namespace compline::guitar {

using harmony::MidiNote;

namespace {

/// "E2", "B♭1": a name and an octave.
std::optional<MidiNote> read_note(std::string_view word) {
    std::size_t length = 0;
    const auto spelling = harmony::read_spelling(word, length);
    if (!spelling || word.size() != length + 1) return std::nullopt;
    const char octave = word[length];
    if (octave < '0' || octave > '9') return std::nullopt;
    // The octave belongs to the letter: a Cb4 is a B3.
    const harmony::Spelling letter{spelling->letter, 0};
    return MidiNote(12 * (octave - '0' + 1) + letter.pitch_class() + spelling->accidental);
}

}  // namespace

std::vector<MidiNote> read_tuning(std::string_view text) {
    std::vector<MidiNote> open;
    const text::Phrase phrase(text);
    for (const auto& word : phrase.words()) {
        const auto note = read_note(word.text);
        if (!note) {
            phrase.refuse(word, text::quoted(word.text) + " is no note with an octave",
                          "write such as E2, Bb1 or F#3");
        }
        open.insert(open.begin(), *note);
    }
    if (open.size() < std::size_t{fewest_strings} || open.size() > std::size_t{most_strings}) {
        throw text::BadInput("", fmt::format("{} strings", open.size()),
                             fmt::format("write {} to {} notes from the lowest string on, such as "
                                         "\"E2 A2 D3 G3 B3 E4\"",
                                         fewest_strings, most_strings));
    }
    return open;
}

Fretboard::Fretboard(std::vector<MidiNote> open, int frets, int capo)
    : open_(std::move(open)), frets_(frets), capo_(capo) {}

Fretboard Fretboard::standard() {
    return Fretboard(
        {MidiNote(64), MidiNote(59), MidiNote(55), MidiNote(50), MidiNote(45), MidiNote(40)}, 22);
}

MidiNote Fretboard::open(int string) const {
    assert(string >= 1 && string <= strings());
    return MidiNote(open_[static_cast<std::size_t>(string - 1)].number() + capo_);
}

MidiNote Fretboard::note(const StringAndFret& place) const {
    return MidiNote(open(place.string).number() + place.fret);
}

std::optional<int> Fretboard::fret(int string, MidiNote note) const {
    const int fret = note.number() - open(string).number();
    if (fret < 0 || fret > frets()) return std::nullopt;
    return fret;
}

}  // namespace compline::guitar
