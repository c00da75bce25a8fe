#include "values.hpp"

#include <compline/chart/read_manner.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/utf8.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace compline::chart {

namespace {

constexpr std::size_t longest_title = 200;
constexpr std::size_t longest_shown = 32;

bool may_stand_in_name(char32_t c) {
    return text::is_letter(c) || (c >= '0' && c <= '9') ||
           (c < 0x80 && c > 0 &&
            std::string_view(" _-.'").find(static_cast<char>(c)) != std::string_view::npos);
}

bool is_section_name(std::string_view text) {
    if (text.empty() || text.back() == ' ' || text::count_code_points(text) > longest_shown)
        return false;
    if (!text::is_letter(text::code_point_at(text, 0).value)) return false;
    for (std::size_t at = 0; at < text.size();) {
        const text::CodePoint c = text::code_point_at(text, at);
        if (!c.valid || !may_stand_in_name(c.value)) return false;
        at += c.bytes;
    }
    return true;
}

}  // namespace

std::string read_title(std::string_view text) {
    if (text.find_first_not_of(' ') == std::string_view::npos) {
        throw text::BadInput("the title is empty: give the tune a name");
    }
    for (std::size_t at = 0; at < text.size();) {
        const text::CodePoint c = text::code_point_at(text, at);
        if (!c.valid || text::is_control(c.value) || text::is_misleading(c.value)) {
            throw text::BadInput(
                fmt::format("the title holds {}: a title is plain text on one line",
                            text::quoted(text.substr(at, c.bytes))));
        }
        at += c.bytes;
    }
    if (const auto length = text::count_code_points(text); length > longest_title) {
        throw text::BadInput(
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
        throw text::BadInput(
            fmt::format("{} is not a key: write a note A to G, ♭ or ♯ (b or #) if need "
                        "be, and m for minor, such as F, E♭, Cm or F# minor",
                        text::quoted(text)));
    }
    return {*tonic, minor};
}

time::Meter read_meter(std::string_view text) {
    const auto slash = std::min(text.find('/'), text.size());
    const auto above = text::read_count(text.substr(0, slash));
    const auto below = text::read_count(text.substr(std::min(slash + 1, text.size())));
    const auto meter = above && below ? time::Meter::find(*above, *below) : std::nullopt;
    if (meter) return *meter;
    throw text::BadInput(
        fmt::format("{} is not a meter of a chart: write 2/2, 2/4, 3/4, 4/4, 5/4, 6/4, 6/8, 9/8 or "
                    "12/8",
                    text::quoted(text)));
}

time::Bpm read_tempo(std::string_view text) {
    const auto number = text::read_decimal(text);
    if (!number) {
        throw text::BadInput(
            fmt::format("{} is not a tempo: write quarter notes a minute as a plain "
                        "number, such as 132",
                        text::quoted(text)));
    }
    if (*number < slowest_bpm || *number > fastest_bpm) {
        throw text::BadInput(
            fmt::format("{} is not a tempo the band can play: write {} to {} quarter "
                        "notes a minute",
                        text::quoted(text), slowest_bpm, fastest_bpm));
    }
    return time::Bpm(*number);
}

std::string read_section_name(std::string_view text) {
    if (is_section_name(text)) return std::string(text);
    throw text::BadInput(
        fmt::format("{} cannot name a section: a name begins with a letter and has at "
                    "most {} letters, digits, blanks and _ - . ', such as A or Intro 2",
                    text::quoted(text), longest_shown));
}

AskedManner read_manner(const yaml::MapReader& map) {
    auto manner = read_manner_but_feel(map);
    manner.feel = map.value_of(map.find("feel"), read_feel_name);
    return manner;
}

AskedManner read_manner_but_feel(const yaml::MapReader& map) {
    const auto bass = map.value_of(map.find("bass"), read_bass_wish).value_or(BassWish{});
    return {std::nullopt, map.value_of(map.find("drums"), read_drums_name), bass.bass, bass.plain,
            map.value_of(map.find("phrasing"), read_phrasing_name)};
}

}  // namespace compline::chart
