#pragma once

#include <compline/roadmap/road_map.hpp>

namespace compline::practice {

/// How long after its last beat a time through is over: a late last chord has been heard.
inline constexpr time::Seconds afterwards{0.5};
/// A held ending rings for its bars (band::held_bars), and so long at least.
inline constexpr time::Seconds crash_rings{2.5};

/// Times through begun at a moment of the tune: 0 during the count-in, at most their number.
[[nodiscard]] int times_begun(const roadmap::RoadMap& map, time::Seconds at);
/// Times through that are over, with time for the last chord to be heard.
[[nodiscard]] int times_over(const roadmap::RoadMap& map, time::Seconds at);
/// All times through are over, and what is held behind them has rung.
[[nodiscard]] bool is_finished(const roadmap::RoadMap& map, time::Seconds at);

}  // namespace compline::practice
