#pragma once

#include <string>

namespace compline::report {

/// "2027-01-05 19:30", of a date as takes have it (ISO 8601): to the minute, as a player remembers
/// it. Safe for a terminal.
[[nodiscard]] std::string spoken_date(const std::string& made);

}  // namespace compline::report
