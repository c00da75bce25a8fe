#include <compline/text/numbers.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <system_error>

namespace compline::text {

namespace {

bool all_digits(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

std::optional<double> read_decimal(std::string_view text) {
    const std::size_t point = std::min(text.find('.'), text.size());
    const auto whole = text.substr(0, point);
    const auto rest = text.substr(std::min(point + 1, text.size()));
    const bool has_point = point < text.size();
    if (!all_digits(whole) || !all_digits(rest) || whole.empty() || has_point == rest.empty() ||
        text.size() > 18) {
        return std::nullopt;
    }
    double number = 0;
    const auto result = std::from_chars(text.data(), text.data() + text.size(), number);
    if (result.ec != std::errc{}) return std::nullopt;
    return number;
}

std::optional<double> read_number(std::string_view text) {
    const bool minus = !text.empty() && text.front() == '-';
    if (minus || (!text.empty() && text.front() == '+')) text.remove_prefix(1);
    std::string whole;
    if (!text.empty() && text.front() == '.') text = whole = fmt::format("0{}", text);
    const auto number = read_decimal(text);
    return number && minus ? std::optional(-*number) : number;
}

std::optional<int> read_count(std::string_view text) {
    if (text.empty() || text.size() > 9 || !all_digits(text)) return std::nullopt;
    int count = 0;
    std::from_chars(text.data(), text.data() + text.size(), count);
    return count;
}

std::string to_three_decimals(double number) {
    auto text = fmt::format("{:.3f}", number);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text == "-0" ? "0" : text;
}

std::string range_in_words(double least, double most) {
    const auto word = [](double number) {
        const bool whole = number == std::floor(number) && std::fabs(number) < 1e15;
        return whole ? fmt::format("{:.0f}", number) : fmt::format("{:g}", number);
    };
    return fmt::format("{} to {}", word(least), word(most));
}

}  // namespace compline::text
