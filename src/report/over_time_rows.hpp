#pragma once

#include "over_time_table.hpp"

#include <compline/report/report.hpp>

#include <string>

namespace compline::report {

/// What is to be talked about first: what got worse, what got better, what stayed wrong, and what
/// was wrong once; as many as fit a screen, or all places.
[[nodiscard]] PlaceRows rows_to_list(const practice::OverTime& over, Listing listing);

/// "Not listed: 3 worse, 2 the same, 8 always right (--all lists them)." and a line feed; nothing
/// where all are.
[[nodiscard]] std::string not_listed_line(const practice::OverTime& over, const PlaceRows& rows);

}  // namespace compline::report
