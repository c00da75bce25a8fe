#pragma once

#include <string>

namespace compline::report {

/// "2027-01-05 19:30", of a date as takes have it (ISO 8601): to the minute, as a player remembers
/// it. Safe for a terminal.
[[nodiscard]] std::string spoken_date(const std::string& made);

// Of an evening (practice::evening_of, "2026-11-03"). What is no date comes back as it can be
// printed.

enum class WithYear { no, yes };
/// "3 November"; "3 November 2026" where the year is not plain.
[[nodiscard]] std::string spoken_day(const std::string& evening, WithYear year);
/// "3 Nov", for the head of a column.
[[nodiscard]] std::string short_day(const std::string& evening);

}  // namespace compline::report
