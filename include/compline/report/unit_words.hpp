#pragma once

#include <compline/listen/unit_check.hpp>

#include <string>
#include <vector>

namespace compline::report {

// What a player is told of his MIDI pickup's unit, as he tries it string by string.

/// "string 6: E2, 3 cents sharp, on channel 6"; of another string's note, whose it is.
[[nodiscard]] std::string open_string_words(int string, const listen::NoteSeen& note,
                                            const guitar::Fretboard& fretboard);

/// Whether the note is that open string, in tune or not.
[[nodiscard]] bool is_open_string(int string, const listen::NoteSeen& note,
                                  const guitar::Fretboard& fretboard);

/// The loudness of each string in a soft strum and in a hard one, and what to turn on the unit
/// where that helps; velocities from string 1 on, 0: not heard. Lines.
[[nodiscard]] std::string sensitivity_words(const std::vector<int>& soft,
                                            const std::vector<int>& hard);

}  // namespace compline::report
