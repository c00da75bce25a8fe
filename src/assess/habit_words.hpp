#pragma once

#include "habit_groups.hpp"

#include <compline/assess/assessment.hpp>

#include <vector>

namespace compline::assess {

/// Says of a habit whose kind, cases (`changes`, one at least) and `of` are known what goes wrong,
/// where or in what, and what it costs. A quality whose faults are nearly all in one tone becomes
/// that tone; a place where the player waits, a wait.
[[nodiscard]] Habit described(Habit habit, const std::vector<Change>& changes,
                              const std::vector<std::optional<HabitFault>>& faults,
                              HabitMatter matter);

/// Degrees of the chord that did not sound where they were due: what is missing, or what the string
/// of a foreign tone should have had.
[[nodiscard]] std::vector<harmony::Degree> degrees_at_fault(const Change& change);

}  // namespace compline::assess
