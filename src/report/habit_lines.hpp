#pragma once

#include <compline/practice/report.hpp>

#include <string>

namespace compline::report {

/// A habit in words: "bar 14  Em7♭5 → A7  late 6 of 6 times, 106 ms on average".
[[nodiscard]] std::string habit_line(const assess::Habit& habit, const practice::Report& report);

/// The same as what somebody is to work on: "bar 14", "the ♭5 of half-diminished chords".
[[nodiscard]] std::string to_work_on(const assess::Habit& habit);

/// Whether it is one of time, and whether one of tones: what it says need not be said again.
[[nodiscard]] bool is_of_time(const assess::Habit& habit);
[[nodiscard]] bool is_of_tones(const assess::Habit& habit);

/// "late 6 of 6 times, 106 ms on average"; the mean where there is one.
[[nodiscard]] std::string late_words(const char* what, int cases, int of,
                                     std::optional<double> mean_ms);

}  // namespace compline::report
