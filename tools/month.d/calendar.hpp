#pragma once

#include <compline/simulate/chance.hpp>

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::month {

// When somebody practises: days of a life, and the clock on the wall (Central European time, summer
// time from the last Sunday of March to the last of October).

using Day = std::chrono::sys_days;

/// "2026-11-30"; nothing for what is no day of a calendar from 1970 to 2100.
[[nodiscard]] std::optional<Day> read_day(std::string_view text);
[[nodiscard]] std::string to_text(Day day);

struct Moment {
    Day day;
    std::chrono::seconds since_midnight{0};  ///< less than a day

    /// As a take says when it was made: "2026-11-30T19:30:00+01:00".
    [[nodiscard]] std::string made() const;
    /// As a take's file is called: "2026-11-30-193000.mid".
    [[nodiscard]] std::string file() const;
};

/// An evening of practice; week and number count from 0.
struct EveningDate {
    Day day;
    int week = 0;
    int number = 0;
    bool begins_week = false;
};
/// Three to six evenings a week, so many weeks, the last of them ending with that day.
[[nodiscard]] std::vector<EveningDate> evenings(Day ends, int weeks, simulate::Chance& chance);

/// Between half past five and nine.
[[nodiscard]] Moment first_take(Day day, simulate::Chance& chance);

}  // namespace compline::month
