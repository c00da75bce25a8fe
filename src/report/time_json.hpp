#pragma once

#include "json_values.hpp"

#include <compline/assess/assessment.hpp>

#include <string>
#include <vector>

namespace compline::report {

// The player's time and place in a report.

[[nodiscard]] Json time_json(const assess::TimeKeeping& time);
[[nodiscard]] Json own_place_json(const assess::OwnPlace& place);
[[nodiscard]] Json astray_json(const assess::Astray& astray);

/// A line a strum: an evening has thousands, and six lines each would bury the changes.
[[nodiscard]] std::string strums_text(const std::vector<assess::ReadStrum>& strums);

}  // namespace compline::report
