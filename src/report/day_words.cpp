#include <compline/history/trend.hpp>
#include <compline/report/day_words.hpp>
#include <compline/report/spoken_date.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <string_view>

namespace compline::report {

namespace {

constexpr std::array<std::string_view, 7> weekdays = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                                      "Friday", "Saturday", "Sunday"};
constexpr int week = 7;

/// 1970-01-01 was a Thursday.
std::string_view weekday_of(int days) {
    const int since_monday = ((days + 3) % week + week) % week;
    return weekdays[static_cast<std::size_t>(since_monday)];
}

/// "four weeks", "a month".
std::string in_number_words(int n, const char* one, const char* many) {
    constexpr std::array<std::string_view, 11> numbers = {
        "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"};
    if (n <= 1) return one;
    const auto at = static_cast<std::size_t>(n - 2);
    return at < numbers.size() ? fmt::format("{} {}", numbers[at], many)
                               : fmt::format("{} {}", n, many);
}

/// Weeks up to nine of them, then months, then years.
std::string long_ago(double days) {
    constexpr double weeks_up_to = 9.5 * week;
    constexpr double month = 365.25 / 12;
    constexpr double months_up_to = 11.5 * month;
    if (days < weeks_up_to) {
        return in_number_words(static_cast<int>(std::lround(days / week)), "a week ago",
                               "weeks ago");
    }
    if (days < months_up_to) {
        return in_number_words(static_cast<int>(std::lround(days / month)), "a month ago",
                               "months ago");
    }
    return in_number_words(static_cast<int>(std::lround(days / month / 12)), "a year ago",
                           "years ago");
}

}  // namespace

std::string day_words(const std::string& day, const std::string& today) {
    const auto then = history::days_of(day);
    const auto now = history::days_of(today);
    if (!then || !now) return text::printable(day);
    const int ago = *now - *then;
    if (ago == 0) return "today";
    if (ago == 1) return "yesterday";
    if (ago == -1) return "tomorrow";
    if (ago > 0 && ago < week) return std::string(weekday_of(*then));
    const bool this_year = day.substr(0, 4) == today.substr(0, 4);
    return spoken_day(day, this_year ? WithYear::no : WithYear::yes);
}

std::string on_day(const std::string& day, const std::string& today) {
    const auto words = day_words(day, today);
    const bool is_near = words == "today" || words == "yesterday" || words == "tomorrow";
    return is_near ? words : "on " + words;
}

std::string about_when(const std::string& first, const std::string& last,
                       const std::string& today) {
    const auto from = history::days_of(first);
    const auto to = history::days_of(last);
    const auto now = history::days_of(today);
    if (!from || !to || !now) return on_day(last, today);
    const double ago = *now - (*from + *to) / 2.0;
    return ago < week ? on_day(last, today) : long_ago(ago);
}

}  // namespace compline::report
