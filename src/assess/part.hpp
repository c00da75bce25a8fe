#pragma once

#include "time_keeping.hpp"

#include <compline/assess/assessment.hpp>

#include <vector>

namespace compline::assess {

// A player asks for some bars of what he played: all of it is read, for nobody can tell what a
// strum was meant for who has not heard what came before it; these bars alone are judged.

/// Leaves in an assessment what lies in these bars of the form.
void keep_part(chart::Passage part, Assessment& assessment);

/// The same of strums in time.
void keep_part(chart::Passage part, const roadmap::RoadMap& map, std::vector<Asynchrony>& all);

}  // namespace compline::assess
