#pragma once

#include <string>

namespace compline::practice {

/// The evening on which a take was made, by the player's own clock: "2026-11-03" of
/// "2026-11-03T21:40:00+01:00". What is played before four in the morning belongs to the evening
/// before (common practice, no source); a date without a time of day is that day. "" where it is
/// empty or no date of ISO 8601.
[[nodiscard]] std::string evening_of(const std::string& made);

}  // namespace compline::practice
