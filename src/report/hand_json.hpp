#pragma once

#include "json_values.hpp"

#include <compline/practice/hand_against_plan.hpp>

namespace compline::report {

/// As report-2.schema.json beside this has `hand`.
[[nodiscard]] Json hand_json(const practice::HandAgainstPlan& hand);

}  // namespace compline::report
