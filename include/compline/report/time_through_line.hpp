#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/roadmap/road_map.hpp>

#include <string>

namespace compline::report {

/// What is said after a time through, in one line, of its changes alone:
/// "1st time through: 14 changes, 12 in time, 1 late, 1 missed, wrong tones in 2; 6 ms behind, SD
/// 14 ms". In time are those on time, pushed, held and laid out; the last are counted beside it, so
/// that silence does not pass for playing (heard by sound they are called "not struck"). Placed
/// ones are neither that nor a fault. The milliseconds are those of its landings. What is uncertain
/// is counted apart. Times through are counted from 1.
[[nodiscard]] std::string time_through_line(const assess::Assessment& assessment, int time_through);

/// What a ladder makes of a time through and what comes then: "the ladder: clean, once more and
/// 100". A step that was taken on this map. Heard by sound it is by time alone, and says so.
[[nodiscard]] std::string ladder_line(const roadmap::LadderStep& step, const roadmap::RoadMap& map,
                                      listen::HeardBy heard_by = listen::HeardBy::midi);

}  // namespace compline::report
