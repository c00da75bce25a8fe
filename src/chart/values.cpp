#include "values.hpp"

#include "utf8.hpp"
#include "words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <vector>

namespace compline::chart {

namespace {

constexpr std::size_t longest_title = 200;
constexpr std::size_t longest_name = 32;

/// Digits, and a point and digits if any: no sign, no exponent, no nan. The same in every locale.
std::optional<double> read_number(std::string_view text) {
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    const std::size_t point = std::min(text.find('.'), text.size());
    const auto whole = text.substr(0, point);
    const auto rest = text.substr(std::min(point + 1, text.size()));
    const bool digits = std::all_of(whole.begin(), whole.end(), is_digit) &&
                        std::all_of(rest.begin(), rest.end(), is_digit);
    const bool has_point = point < text.size();
    if (!digits || whole.empty() || has_point == rest.empty() || text.size() > 18) {
        return std::nullopt;
    }
    double number = 0;
    const auto result = std::from_chars(text.data(), text.data() + text.size(), number);
    if (result.ec != std::errc{}) return std::nullopt;
    return number;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known) {
    const auto near = nearest(word, known);
    return near ? fmt::format(" (did you mean {}?)", *near) : "";
}

std::optional<double> read_ratio(std::string_view text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos) return read_number(text);
    const auto long_part = read_number(text.substr(0, colon));
    const auto short_part = read_number(text.substr(colon + 1));
    if (!long_part || !short_part || *short_part <= 0) return std::nullopt;
    return *long_part / *short_part;
}

bool is_letter(char32_t c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
           (c >= 0xA0 && !is_invisible(c) && !is_misleading(c));
}

bool may_stand_in_name(char32_t c) {
    return is_letter(c) || (c >= '0' && c <= '9') ||
           (c < 0x80 && c > 0 &&
            std::string_view(" _-.'").find(static_cast<char>(c)) != std::string_view::npos);
}

bool is_section_name(std::string_view text) {
    if (text.empty() || text.back() == ' ' || count_code_points(text) > longest_name) return false;
    if (!is_letter(code_point_at(text, 0).value)) return false;
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint c = code_point_at(text, at);
        if (!c.valid || !may_stand_in_name(c.value)) return false;
        at += c.bytes;
    }
    return true;
}

}  // namespace

std::string read_title(std::string_view text) {
    if (text.find_first_not_of(' ') == std::string_view::npos) {
        throw BadValue("the title is empty: give the tune a name");
    }
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint c = code_point_at(text, at);
        if (!c.valid || is_control(c.value) || is_misleading(c.value)) {
            throw BadValue(fmt::format("the title holds {}: a title is plain text on one line",
                                       in_quotes(text.substr(at, c.bytes))));
        }
        at += c.bytes;
    }
    if (const auto length = count_code_points(text); length > longest_title) {
        throw BadValue(
            fmt::format("the title has {} characters: at most {} are read", length, longest_title));
    }
    return std::string(text);
}

Key read_key(std::string_view text) {
    std::size_t length = 0;
    const auto tonic = harmony::read_spelling(text, length);
    auto mode = text.substr(length);
    while (!mode.empty() && mode.front() == ' ') mode.remove_prefix(1);
    const bool minor = mode == "m" || mode == "minor";
    const bool plain = tonic && tonic->accidental >= -1 && tonic->accidental <= 1;
    if (!plain || !(minor || mode.empty() || mode == "major")) {
        throw BadValue(
            fmt::format("{} is not a key: write a note A to G, ♭ or ♯ (b or #) if need "
                        "be, and m for minor, such as F, E♭, Cm or F# minor",
                        in_quotes(text)));
    }
    return {*tonic, minor};
}

time::Meter read_meter(std::string_view text) {
    if (text == "4/4") return time::Meter(4);
    if (text == "3/4") return time::Meter(3);
    throw BadValue(fmt::format("{} is not a meter of a chart: write 4/4 or 3/4", in_quotes(text)));
}

time::Bpm read_tempo(std::string_view text) {
    const auto number = read_number(text);
    if (!number) {
        throw BadValue(
            fmt::format("{} is not a tempo: write quarter notes a minute as a plain "
                        "number, such as 132",
                        in_quotes(text)));
    }
    if (*number < slowest_bpm || *number > fastest_bpm) {
        throw BadValue(
            fmt::format("{} is not a tempo the band can play: write {} to {} quarter "
                        "notes a minute",
                        in_quotes(text), slowest_bpm, fastest_bpm));
    }
    return time::Bpm(*number);
}

Feel read_feel(std::string_view text) {
    if (text == "swing") return Feel::swing;
    if (text == "straight") return Feel::straight;
    throw BadValue(fmt::format("{} is not a feel: write swing or straight{}", in_quotes(text),
                               did_you_mean(text, {"swing", "straight"})));
}

std::optional<double> read_swing(std::string_view text) {
    if (text == "auto") return std::nullopt;
    const auto ratio = read_ratio(text);
    if (!ratio) {
        throw BadValue(
            fmt::format("{} is not a swing: write auto (by tempo), a ratio such as 2:1, "
                        "or a number such as 1.8",
                        in_quotes(text)));
    }
    if (*ratio < 1 || *ratio > 3) {
        throw BadValue(
            fmt::format("{} is not a swing the band can play: the long part is 1 to 3 "
                        "times the short one (1 is straight, 3 a dotted eighth)",
                        in_quotes(text)));
    }
    return ratio;
}

std::string read_section_name(std::string_view text) {
    if (is_section_name(text)) return std::string(text);
    throw BadValue(
        fmt::format("{} cannot name a section: a name begins with a letter and has at "
                    "most {} letters, digits, blanks and _ - . ', such as A or Intro 2",
                    in_quotes(text), longest_name));
}

}  // namespace compline::chart
