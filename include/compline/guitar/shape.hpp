#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/harmony/palette.hpp>

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::guitar {

/// A chord shape: a fret for each string that sounds.
struct Shape {
    std::array<std::optional<int>, most_strings> frets;  ///< [0] is string 1; none is muted
    int strings = 6;                                     ///< of the guitar

    /// Of a guitar with so many strings, from the lowest to string 1; none is muted.
    [[nodiscard]] static Shape of(const std::vector<std::optional<int>>& from_lowest);

    [[nodiscard]] std::optional<int>& on(int string) {
        return frets[static_cast<std::size_t>(string - 1)];
    }
    [[nodiscard]] const std::optional<int>& on(int string) const {
        return frets[static_cast<std::size_t>(string - 1)];
    }
    [[nodiscard]] std::vector<StringAndFret> places()
        const;  ///< from the lowest string to string 1
    /// Written from the lowest string to string 1: "x5x56x", with hyphens when a fret has two
    /// digits.
    [[nodiscard]] std::string text() const;
    bool operator==(const Shape&) const = default;
};

/// The lowest note of a shape, on whatever string it lies; none where nothing sounds.
[[nodiscard]] std::optional<harmony::MidiNote> lowest_note(const Fretboard& fretboard,
                                                           const Shape& shape);

/// A shell voicing: the root on string 6 or 5 and the defining tones on strings 4 to 2, within four
/// frets, the nearest to `near_fret` (the lowest fretted note of the grip before). Deterministic.
/// A simple player's choice; a plan through a whole tune is another matter.
[[nodiscard]] Shape shell(const Fretboard& fretboard, const harmony::Chord& chord, int near_fret);

}  // namespace compline::guitar
