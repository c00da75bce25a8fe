#pragma once

#include <compline/band/band.hpp>

namespace compline::band {

/// What was decided later takes nothing back of what a time through was written as; it takes out
/// what is not played of it: where that time through was cut short, and where a player lays out.
/// part: of one time through of `map`, as it was written when that was not known yet.
void sift(Part& part, const roadmap::RoadMap& map, int time_through);

}  // namespace compline::band
