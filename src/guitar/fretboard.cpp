#include <compline/guitar/fretboard.hpp>

#include <cassert>
#include <utility>

namespace compline::guitar {

using harmony::MidiNote;

Fretboard::Fretboard(std::vector<MidiNote> open, int frets)
    : open_(std::move(open)), frets_(frets) {}

Fretboard Fretboard::standard() {
    return Fretboard(
        {MidiNote(64), MidiNote(59), MidiNote(55), MidiNote(50), MidiNote(45), MidiNote(40)}, 22);
}

MidiNote Fretboard::open(int string) const {
    assert(string >= 1 && string <= strings());
    return open_[static_cast<std::size_t>(string - 1)];
}

MidiNote Fretboard::note(const Place& place) const {
    return MidiNote(open(place.string).number() + place.fret);
}

std::optional<int> Fretboard::fret(int string, MidiNote note) const {
    const int fret = note.number() - open(string).number();
    if (fret < 0 || fret > frets_) return std::nullopt;
    return fret;
}

}  // namespace compline::guitar
