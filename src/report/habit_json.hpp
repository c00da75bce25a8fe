#pragma once

#include "json_values.hpp"

#include <compline/assess/habit.hpp>

namespace compline::report {

/// What every habit has, and what its kind speaks of.
[[nodiscard]] Json habit_json(const assess::Habit& habit);

}  // namespace compline::report
