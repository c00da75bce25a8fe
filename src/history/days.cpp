#include <compline/history/trend.hpp>
#include <compline/text/numbers.hpp>

#include <fmt/format.h>

#include <cassert>
#include <chrono>

namespace compline::history {

namespace {

using std::chrono::sys_days;
using std::chrono::year_month_day;

constexpr std::size_t date_width = 10;  // of "2026-11-03"

}  // namespace

std::optional<int> days_of(std::string_view date) {
    if (date.size() != date_width || date[4] != '-' || date[7] != '-') return std::nullopt;
    const auto year = text::read_count(date.substr(0, 4));
    const auto month = text::read_count(date.substr(5, 2));
    const auto day = text::read_count(date.substr(8));
    if (!year || !month || !day) return std::nullopt;
    const year_month_day written{std::chrono::year(*year),
                                 std::chrono::month(static_cast<unsigned>(*month)),
                                 std::chrono::day(static_cast<unsigned>(*day))};
    if (!written.ok()) return std::nullopt;
    return static_cast<int>(sys_days(written).time_since_epoch().count());
}

std::string date_of(int days) {
    const year_month_day date{sys_days(std::chrono::days(days))};
    const int year = static_cast<int>(date.year());
    assert(year >= 0 && year <= 9999);
    return fmt::format("{:04}-{:02}-{:02}", year, static_cast<unsigned>(date.month()),
                       static_cast<unsigned>(date.day()));
}

}  // namespace compline::history
