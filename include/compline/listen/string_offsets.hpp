#pragma once

#include <compline/time/units.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace compline::listen {

// What the strings of a guitar take besides what they all take, as a player says it:
//
//     5=8 6=3.2
//
// Milliseconds by string number (1 = high E), -50 to 50; strings 1 to 8, in any order.

inline constexpr double furthest_string_offset_ms = 50;

/// From string 1 on, as Delay has them; none behind the last string that takes anything. Throws
/// text::BadInput.
[[nodiscard]] std::vector<time::Seconds> read_string_offsets(std::string_view words);

/// The same back again, to a microsecond; empty where no string takes anything.
[[nodiscard]] std::string string_offsets_in_words(const std::vector<time::Seconds>& by_string);

}  // namespace compline::listen
