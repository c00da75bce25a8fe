#pragma once

#include "large_layout.hpp"

#include <compline/report/now_playing.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// What is large in the large view: the header, the chords and the beats between them, the grip.
/// As many lines as the layout draws. `place`: that is shown (see shown_place()).
[[nodiscard]] std::vector<std::string> large_drawing(const LargeLayout& layout,
                                                     const ChartRows& rows, const Playing& playing,
                                                     const roadmap::PlayedPlace& place,
                                                     time::Ticks position);

}  // namespace compline::report
