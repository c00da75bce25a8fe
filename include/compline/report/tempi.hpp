#pragma once

#include <compline/roadmap/road_map.hpp>

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace compline::report {

// The tempi of what was played, of a road map that ends. A wait is no music: another tempo that was
// decided in one counts from the bar after it.

/// A tempo, and from where on it was played.
struct TempoPlayed {
    int time_through = 1;       ///< from 1
    std::int64_t from_bar = 1;  ///< in order of playing, from 1
    time::Bpm tempo{120};
};

/// Each another than the one before; none where time was free throughout.
[[nodiscard]] std::vector<TempoPlayed> tempi_played(const roadmap::RoadMap& map);

/// "132 bpm", or from the slowest to the fastest: "96 to 132 bpm"; "free time".
[[nodiscard]] std::string tempo_range(const roadmap::RoadMap& map);

/// By time through, in so many columns: "1st time 132, 2nd 137, 3rd 137 to 126 bpm"; of one that
/// went to and fro "between 126 and 137". Those that do not fit are left out before the last:
/// "1st time 96, 2nd 100, ..., 24th 188 bpm". Empty where the tempo stayed the same.
[[nodiscard]] std::string tempi_by_time_through(const roadmap::RoadMap& map, std::size_t columns);

}  // namespace compline::report
