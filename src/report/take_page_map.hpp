#pragma once

#include "page_part.hpp"

#include <compline/practice/report.hpp>

namespace compline::report {

/// What every bar cost, every time: bars across, times through from above, the darker the dearer; a
/// bar that was not played, or not for certain, is left white. Beside the rows the tempo, where it
/// changed. Nothing where there was one time through: the strip says it all.
[[nodiscard]] PagePart map_part(const practice::Report& report);

/// The tempo with which a time through began.
[[nodiscard]] time::Bpm tempo_of_time(const roadmap::RoadMap& map, int time_through);

}  // namespace compline::report
