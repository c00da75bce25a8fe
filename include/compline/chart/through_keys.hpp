#pragma once

#include <compline/chart/form.hpp>
#include <compline/text/bad_input.hpp>

#include <optional>
#include <string_view>

namespace compline::chart {

// A passage practised through the keys, one a time through, as players drill a turnaround.

/// From one key to the next, in semitones, 1 to 11: "up a fourth" is 5, "down a semitone" -1.
/// Throws text::BadInput.
[[nodiscard]] int read_key_step(std::string_view text);

/// How many keys there are until the first comes again: 12 for a fourth, 4 for a minor third.
[[nodiscard]] int keys_around(int step);

/// A chart of the passage in one key after the other, each in sections of its own ("A in B flat"),
/// and with a road map that plays each once, so many times in all (1 to 100; none: until the first
/// key would come again). It has neither the voicings nor the signs of the chart. Throws
/// text::BadInput where that would be too long a chart.
[[nodiscard]] Chart through_keys(const Form& form, Passage passage, int step,
                                 std::optional<int> times);

}  // namespace compline::chart
