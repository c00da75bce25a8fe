#pragma once

#include <compline/harmony/pitch.hpp>
#include <compline/text/bad_input.hpp>

#include <optional>
#include <stdexcept>
#include <string_view>
#include <vector>

namespace compline::guitar {

// Of the guitars that are known here.
inline constexpr int fewest_strings = 4;
inline constexpr int most_strings = 8;
inline constexpr int fewest_frets = 12;
inline constexpr int most_frets = 36;
inline constexpr int highest_capo = 11;

/// A place on the neck. Strings are numbered as players do: 1 = high E ... 6 = low E; fret 0 is
/// the open string.
struct StringAndFret {
    int string = 1;
    int fret = 0;
    bool operator==(const StringAndFret&) const = default;
};

/// Strings and frets of an instrument in a tuning. With a capo frets count from the capo on, as
/// players say them: fret 0 is the string held by the capo.
class Fretboard {
  public:
    /// `open`: the open strings from string 1 on; `frets`: the highest fret, counted from the nut;
    /// `capo`: the fret it lies on, 0: none.
    Fretboard(std::vector<harmony::MidiNote> open, int frets, int capo = 0);

    /// Six strings, E4 B3 G3 D3 A2 E2, 22 frets.
    [[nodiscard]] static Fretboard standard();

    [[nodiscard]] int strings() const { return static_cast<int>(open_.size()); }
    /// The highest fret, counted from the capo.
    [[nodiscard]] int frets() const { return frets_ - capo_; }
    [[nodiscard]] int capo() const { return capo_; }
    /// The open string, held by the capo where there is one.
    [[nodiscard]] harmony::MidiNote open(int string) const;
    [[nodiscard]] harmony::MidiNote note(const StringAndFret& place) const;
    /// The fret of a note on a string; nothing where the string does not reach it.
    [[nodiscard]] std::optional<int> fret(int string, harmony::MidiNote note) const;

    bool operator==(const Fretboard&) const = default;

  private:
    std::vector<harmony::MidiNote> open_;
    int frets_;
    int capo_;
};

/// Open strings from the lowest string to string 1 as players say them: "E2 A2 D3 G3 B3 E4"; 4 to
/// 8 notes with their octaves. The order of pitches is free (re-entrant tunings). Gives them from
/// string 1 on. Throws text::BadInput.
[[nodiscard]] std::vector<harmony::MidiNote> read_tuning(std::string_view text);

}  // namespace compline::guitar
