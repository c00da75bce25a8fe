#pragma once

#include <compline/report/now_playing.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace compline::report {

/// The grip to hold and the next one, side by side, the names above them; where the window is too
/// narrow for both, one of them. Where `room` lines are too few, names and frets in one line.
[[nodiscard]] std::vector<std::string> grips_shown(const ChartRows& rows, const Playing& playing,
                                                   time::Ticks position, std::size_t room);

}  // namespace compline::report
