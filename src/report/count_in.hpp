#pragma once

#include <compline/roadmap/road_map.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// The count-in, as far as it has come.
struct CountIn {
    int beats = 4;                   ///< of its bars
    std::vector<std::string> words;  ///< what a drummer says on each: "1", "-", "2", "-", "1" ...
};

/// At a place before the bar that is counted in. Into the beginning it may be two bars; after a
/// pause it is one.
[[nodiscard]] CountIn count_in(const roadmap::RoadMap& map, const roadmap::PlayedPlace& place,
                               time::Ticks position);

}  // namespace compline::report
