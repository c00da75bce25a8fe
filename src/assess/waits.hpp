#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/roadmap/road_map.hpp>

namespace compline::assess {

// A wait is no music: what somebody plays there is his own affair, judged nowhere and counted
// nowhere. What leads out of it, up to a beat and a half ahead, belongs to what comes.

[[nodiscard]] bool has_waits(const roadmap::RoadMap& map);
[[nodiscard]] bool is_in_wait(time::Ticks at, const roadmap::RoadMap& map);

/// The notes that do not lie in a wait.
[[nodiscard]] Performance without_waits(Performance heard, const roadmap::RoadMap& map);

}  // namespace compline::assess
