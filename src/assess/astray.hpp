#pragma once

#include "reading.hpp"
#include "target.hpp"

#include <compline/assess/assessment.hpp>

#include <vector>

namespace compline::assess {

/// Where the player was elsewhere in the form, in order of time.
[[nodiscard]] std::vector<Astray> astray_stretches(const std::vector<Change>& changes,
                                                   const Reading& reading, const Targets& targets,
                                                   const roadmap::RoadMap& map);

}  // namespace compline::assess
