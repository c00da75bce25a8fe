#include <compline/practice/evening_date.hpp>
#include <compline/text/numbers.hpp>

#include <fmt/format.h>

#include <chrono>
#include <optional>
#include <string_view>

namespace compline::practice {

namespace {

namespace chrono = std::chrono;

/// Who plays after midnight has not gone to bed yet (common practice, no source).
constexpr int morning_h = 4;

std::optional<chrono::year_month_day> date_at_front(std::string_view text) {
    constexpr std::size_t length = 10;  // 2026-11-03
    if (text.size() < length || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto year = text::read_count(text.substr(0, 4));
    const auto month = text::read_count(text.substr(5, 2));
    const auto day = text::read_count(text.substr(8, 2));
    if (!year || !month || !day) return std::nullopt;
    const chrono::year_month_day date{chrono::year(*year),
                                      chrono::month(static_cast<unsigned>(*month)),
                                      chrono::day(static_cast<unsigned>(*day))};
    return date.ok() ? std::optional(date) : std::nullopt;
}

/// Of what stands behind the date: none for no time of day.
std::optional<int> hour_of(std::string_view rest) {
    if (rest.size() < 3 || (rest[0] != 'T' && rest[0] != ' ')) return std::nullopt;
    const auto hour = text::read_count(rest.substr(1, 2));
    return hour && *hour <= 24 ? hour : std::nullopt;
}

}  // namespace

std::string evening_of(const std::string& made) {
    const auto date = date_at_front(made);
    if (!date) return "";
    const auto rest = std::string_view(made).substr(10);
    const auto hour = hour_of(rest);
    if (!hour && !rest.empty()) return "";
    const bool after_midnight = hour && *hour < morning_h;
    const chrono::year_month_day evening = chrono::sys_days(*date) - chrono::days(after_midnight);
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(evening.year()),
                       static_cast<unsigned>(evening.month()),
                       static_cast<unsigned>(evening.day()));
}

OrderInTime order_in_time(const std::string& made, const std::string& take) {
    const bool undated = evening_of(made).empty();
    return {undated, undated ? "" : made, take};
}

}  // namespace compline::practice
