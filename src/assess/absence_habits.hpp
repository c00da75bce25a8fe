#pragma once

#include <compline/assess/assessment.hpp>

#include <vector>

namespace compline::assess {

/// What mark_habits() has marked, by place or by transition: waits and what is left out.
[[nodiscard]] std::vector<Habit> habits_marked(const std::vector<Change>& changes);

}  // namespace compline::assess
