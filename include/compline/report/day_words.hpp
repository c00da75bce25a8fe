#pragma once

#include <string>

namespace compline::report {

// Days as people name them. Both are ISO 8601: "2026-11-03"; what is no date comes back as it can
// be printed. Nothing here reads a clock: who asks says which day it is.

/// "today", "yesterday", "Tuesday" within the last six days, "tomorrow", "3 November", and with the
/// year where it is not today's: "3 November 2025".
[[nodiscard]] std::string day_words(const std::string& day, const std::string& today);

/// The same behind what happened: "today", "on Tuesday", "on 3 November".
[[nodiscard]] std::string on_day(const std::string& day, const std::string& today);

/// How long ago some days were, about: "on Tuesday" within a week, then "a week ago", "four weeks
/// ago", "three months ago", "two years ago".
[[nodiscard]] std::string about_when(const std::string& first, const std::string& last,
                                     const std::string& today);

}  // namespace compline::report
