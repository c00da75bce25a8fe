#pragma once

#include <compline/report/now_playing.hpp>

namespace compline::report {

/// The place that is shown at a position. In a pause, the bar with which it goes on; while a bar
/// waits, which stands in no chart, the beginning of the bar after it, `before`.
[[nodiscard]] roadmap::PlayedPlace shown_place(const ChartRows& rows, const Playing& playing,
                                               time::Ticks position);

}  // namespace compline::report
