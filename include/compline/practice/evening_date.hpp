#pragma once

#include <string>
#include <tuple>

namespace compline::practice {

/// The evening on which a take was made, by the player's own clock: "2026-11-03" of
/// "2026-11-03T21:40:00+01:00". What is played before four in the morning belongs to the evening
/// before (common practice, no source); a date without a time of day is that day. "" where it is
/// empty or no date of ISO 8601.
[[nodiscard]] std::string evening_of(const std::string& made);

/// Takes stand in the order of this: those with a date first, by it; those without by their names.
using OrderInTime = std::tuple<bool, std::string, std::string>;
[[nodiscard]] OrderInTime order_in_time(const std::string& made, const std::string& take);

}  // namespace compline::practice
