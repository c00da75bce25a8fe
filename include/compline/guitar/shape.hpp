#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/harmony/palette.hpp>

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace compline::guitar {

/// A chord shape on six strings: a fret for each string that sounds.
struct Shape {
    std::array<std::optional<int>, 6> frets;  ///< [0] is string 1; none is muted

    [[nodiscard]] std::vector<Place> places() const;  ///< from string 6 to string 1
    /// Written from string 6 to 1: "x5x56x", with hyphens when a fret has two digits.
    [[nodiscard]] std::string text() const;
    bool operator==(const Shape&) const = default;
};

/// A shell voicing: the root on string 6 or 5 and the defining tones on strings 4 to 2, within four
/// frets, the nearest to `near_fret` (the lowest fretted note of the grip before). Deterministic.
/// A simple player's choice; a plan through a whole tune is another matter.
[[nodiscard]] Shape shell(const Fretboard& fretboard, const harmony::Chord& chord, int near_fret);

}  // namespace compline::guitar
