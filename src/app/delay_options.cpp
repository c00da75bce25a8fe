#include "delay_options.hpp"

#include <compline/listen/string_offsets.hpp>

#include <fmt/format.h>

#include <string>
#include <utility>

namespace compline::app {

namespace {

constexpr double furthest_offset_ms = 1000;

/// What is wrong with the words is known at once; which strings there are, when the guitar is.
ValueReader string_offsets_reader(AsGiven* place) {
    return {ValueReader::Takes::one, [=](const std::string& name, const std::string& text) {
                read_option(name, text, Echo::value,
                            [](const auto& words) { (void)listen::read_string_offsets(words); });
                *place = {text, name};
            }};
}

ValueReader offset_reader(DelayOptions* options) {
    return {ValueReader::Takes::one, [=](const std::string& name, const std::string& text) {
                options->offset_ms =
                    read_number(name, text, -furthest_offset_ms, furthest_offset_ms);
                options->offset_typed = is_option_name(name);
            }};
}

}  // namespace

std::vector<time::Seconds> DelayOptions::strings_of(const guitar::Fretboard& guitar) const {
    if (string_offsets.empty()) return {};
    auto by_string = listen::read_string_offsets(string_offsets.text);
    if (by_string.size() <= static_cast<std::size_t>(guitar.strings())) return by_string;
    throw BadInput(
        text::option_place(string_offsets.name, string_offsets.text),
        fmt::format("there is no string {}: the guitar has {}", by_string.size(), guitar.strings()),
        "");
}

std::vector<Option> options_of(DelayOptions& options) {
    std::vector<Option> rows = {
        {"--offset", "MS",
         "How long your notes take to get here, in milliseconds: taken off every\n"
         "lateness.",
         "0", offset_reader(&options)},
        {"--string-offsets", "STRINGS",
         "What single strings take besides: \"5=8 6=3.2\", milliseconds by the number\n"
         "of the string.",
         "none", string_offsets_reader(&options.string_offsets)},
        {"--round-trip", "MS",
         "The round trip of your interface, which takes the place of the latency that\n"
         "the system tells: milliseconds, and what it was measured on (\"11.354 at\n"
         "48000/256 by JACK:system\"): elsewhere it is not used.\n",
         "what the system tells",
         read_by(
             [&options](const auto& text) { options.round_trip = practice::read_round_trip(text); },
             Echo::value)}};
    for (auto& row : rows) row = as_setting(std::move(row));
    for (auto& row : rows) {
        if (row.name != "--round-trip") row = of_guitar(std::move(row));
    }
    return rows;
}

std::vector<Option> settled(DelayOptions& options) {
    auto rows = options_of(options);
    // What is typed by these names is something else, as is the --offset of a take.
    for (auto& row : rows) row.name = row.setting->key;
    return rows;
}

}  // namespace compline::app
