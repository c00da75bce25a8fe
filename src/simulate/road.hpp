#pragma once

#include <compline/roadmap/road_map.hpp>

#include <vector>

namespace compline::simulate {

inline constexpr time::Ticks beat = time::quarter_note;

/// A chord from the change into it to the next one or to N.C., over bar lines and seams.
struct Area {
    int time_through = 1;
    int bar = 1;
    time::BeatOfBar beat;
    time::Ticks start;
    time::Ticks until;
    harmony::Chord chord;
    bool after_nothing = false;  ///< the first chord, or the first after N.C.
    bool opens_section = false;
    std::vector<time::Ticks> pieces;  ///< where it starts, and every bar line in it

    [[nodiscard]] time::Ticks length() const { return until - start; }
};

/// The chord changes of a road, in order. A chord that comes again is no change.
[[nodiscard]] std::vector<Area> areas_of(const roadmap::RoadMap& map);

}  // namespace compline::simulate
