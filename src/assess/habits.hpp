#pragma once

#include <compline/assess/assessment.hpp>

#include <vector>

namespace compline::assess {

/// Marks what is no matter of taste: places (or transitions) where the player waits most times and
/// comes in later in the bar, and places that are left out most times, while what is beside them
/// lands where it is due.
void mark_habits(std::vector<Change>& changes);

}  // namespace compline::assess
