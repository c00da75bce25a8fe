#include <compline/report/spoken_date.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <array>
#include <optional>
#include <string_view>

namespace compline::report {

namespace {

constexpr std::array<std::string_view, 12> months = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

struct DayInWords {
    int day;
    std::string_view month;
    std::string year;
};

std::optional<DayInWords> day_in_words(const std::string& evening) {
    constexpr std::size_t length = 10;  // 2026-11-03
    if (evening.size() != length) return std::nullopt;
    const auto month = text::read_count(evening.substr(5, 2));
    const auto day = text::read_count(evening.substr(8, 2));
    if (!month || !day || *month < 1 || *month > 12) return std::nullopt;
    return DayInWords{*day, months[static_cast<std::size_t>(*month - 1)], evening.substr(0, 4)};
}

}  // namespace

std::string spoken_date(const std::string& made) {
    constexpr std::size_t to_the_minute = 16;
    auto date = text::printable(made.substr(0, to_the_minute));
    if (const auto t = date.find('T'); t != std::string::npos) date[t] = ' ';
    return date;
}

std::string spoken_day(const std::string& evening, WithYear year) {
    const auto words = day_in_words(evening);
    if (!words) return text::printable(evening);
    const auto day = fmt::format("{} {}", words->day, words->month);
    return year == WithYear::yes ? day + " " + words->year : day;
}

std::string short_day(const std::string& evening) {
    constexpr std::size_t letters = 3;
    const auto words = day_in_words(evening);
    if (!words) return text::printable(evening);
    return fmt::format("{} {}", words->day, words->month.substr(0, letters));
}

}  // namespace compline::report
