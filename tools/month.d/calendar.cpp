#include "calendar.hpp"

#include <compline/text/numbers.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::month {

namespace {

using simulate::Chance;
using std::chrono::days;
using std::chrono::seconds;
using std::chrono::year_month_day;

constexpr int week_days = 7;
constexpr int fewest_evenings = 3;
constexpr int most_evenings = 6;

struct Written {
    int year = 0;
    unsigned month = 0;
    unsigned day = 0;
};

Written written(Day day) {
    const year_month_day date(day);
    return {static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
            static_cast<unsigned>(date.day())};
}

bool is_summer_time(Day day) {
    using namespace std::chrono;
    const auto year = year_month_day(day).year();
    return day >= Day(year / March / Sunday[last]) && day < Day(year / October / Sunday[last]);
}

struct OnTheClock {
    long hours;
    long minutes;
    long seconds;
};

OnTheClock on_the_clock(seconds since_midnight) {
    const long all = static_cast<long>(since_midnight.count());
    return {all / 3600, all / 60 % 60, all % 60};
}

}  // namespace

std::optional<Day> read_day(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto year = text::read_count(text.substr(0, 4));
    const auto month = text::read_count(text.substr(5, 2));
    const auto day = text::read_count(text.substr(8, 2));
    if (!year || !month || !day || *year < 1970 || *year > 2100) return std::nullopt;
    const year_month_day date{std::chrono::year(*year),
                              std::chrono::month(static_cast<unsigned>(*month)),
                              std::chrono::day(static_cast<unsigned>(*day))};
    if (!date.ok()) return std::nullopt;
    return Day(date);
}

std::string to_text(Day day) {
    const auto date = written(day);
    return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

std::string Moment::made() const {
    const auto clock = on_the_clock(since_midnight);
    return fmt::format("{}T{:02}:{:02}:{:02}+0{}:00", to_text(day), clock.hours, clock.minutes,
                       clock.seconds, is_summer_time(day) ? 2 : 1);
}

std::string Moment::file() const {
    const auto clock = on_the_clock(since_midnight);
    return fmt::format("{}-{:02}{:02}{:02}.mid", to_text(day), clock.hours, clock.minutes,
                       clock.seconds);
}

std::vector<EveningDate> evenings(Day ends, int weeks, Chance& chance) {
    std::vector<EveningDate> all;
    const Day begins = ends - days(week_days * weeks - 1);
    for (int week = 0; week < weeks; ++week) {
        const bool is_last = week + 1 == weeks;
        auto left =
            fewest_evenings + static_cast<int>(chance.below(most_evenings - fewest_evenings + 1));
        // So many of the days that are left. The last day is always one, so that a month ends.
        int days_left = week_days;
        for (int day = 0; day < week_days; ++day, --days_left) {
            const int kept = is_last && days_left > 1 ? 1 : 0;
            const auto free = static_cast<std::uint64_t>(days_left - kept);
            if (static_cast<int>(chance.below(free)) >= left - kept) continue;
            --left;
            const Day date = begins + days(week_days * week + day);
            const bool begins_week = all.empty() || all.back().week != week;
            all.push_back({date, week, static_cast<int>(all.size()), begins_week});
        }
    }
    return all;
}

Moment first_take(Day day, Chance& chance) {
    constexpr std::uint64_t half_past_five = 17 * 3600 + 1800;
    constexpr std::uint64_t three_hours_and_a_half = 12600;
    return {day, seconds(half_past_five + chance.below(three_hours_and_a_half))};
}

}  // namespace compline::month
