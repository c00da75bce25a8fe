#pragma once

#include <compline/harmony/pitch.hpp>

#include <optional>
#include <vector>

namespace compline::guitar {

/// A place on the neck. Strings are numbered as players do: 1 = high E ... 6 = low E; fret 0 is
/// the open string.
struct Place {
    int string = 1;
    int fret = 0;
    bool operator==(const Place&) const = default;
};

/// Strings and frets of an instrument in a tuning.
class Fretboard {
  public:
    /// `open`: the open strings from string 1 on; `frets`: the highest fret.
    Fretboard(std::vector<harmony::MidiNote> open, int frets);

    /// Six strings, E4 B3 G3 D3 A2 E2, 22 frets.
    [[nodiscard]] static Fretboard standard();

    [[nodiscard]] int strings() const { return static_cast<int>(open_.size()); }
    [[nodiscard]] int frets() const { return frets_; }
    [[nodiscard]] harmony::MidiNote open(int string) const;
    [[nodiscard]] harmony::MidiNote note(const Place& place) const;
    /// The fret of a note on a string; nothing where the string does not reach it.
    [[nodiscard]] std::optional<int> fret(int string, harmony::MidiNote note) const;

  private:
    std::vector<harmony::MidiNote> open_;
    int frets_;
};

}  // namespace compline::guitar
