#pragma once

#include <array>
#include <string_view>

namespace compline::chart {

// The names of chart::Feel, Drums, Bass and Phrasing, in the order of their values.

inline constexpr std::array<std::string_view, 4> feel_names{"swing", "straight", "bossa", "ballad"};
inline constexpr std::array<std::string_view, 5> drums_names{"ride", "brushes", "hats", "quarters",
                                                             "off"};
inline constexpr std::array<std::string_view, 4> bass_names{"walking", "two-feel", "roots", "off"};
inline constexpr std::array<std::string_view, 2> phrasing_names{"even", "breathing"};

}  // namespace compline::chart
