#include "kept_delays.hpp"

#include "delay_options.hpp"

#include <compline/listen/pickup_words.hpp>
#include <compline/listen/string_offsets.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <vector>

namespace compline::app {

namespace {

/// What is said of a guitar's delays, or of those of all.
struct DelaysSaid {
    std::optional<std::string> offset;
    std::optional<std::string> cycles;
    std::vector<std::string> strings;

    [[nodiscard]] bool nothing() const { return !offset && !cycles && strings.empty(); }
};

std::string milliseconds(time::Seconds delay) {
    return text::to_three_decimals(delay.milliseconds()) + " ms";
}

std::vector<std::string> strings_in_words(const std::vector<time::Seconds>& by_string) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < by_string.size(); ++i) {
        if (by_string[i] == time::Seconds(0)) continue;
        words.push_back(fmt::format("string {}: {} {}", i + 1,
                                    milliseconds(time::abs(by_string[i])),
                                    by_string[i] < time::Seconds(0) ? "earlier" : "later"));
    }
    return words;
}

/// Cycles among the words of a unit, where they are.
std::optional<std::string> cycles_of(const std::string& pickup) {
    if (pickup.find("cycles") == std::string::npos) return std::nullopt;
    const auto cycles = listen::live_delay({}, {}, pickup).cycles;
    return fmt::format("{} {} of the wave", text::to_three_decimals(cycles),
                       cycles == 1 ? "cycle" : "cycles");
}

DelaysSaid said_by(const std::vector<settings::Setting>& settings) {
    DelaysSaid said;
    DelayOptions options;
    for (const auto& setting : settings) {
        const auto place = fmt::format("{}: {}", setting.place, setting.key);
        for (const auto& row : options_of(options)) {
            if (row.setting->key == setting.key) row.setting->read(place, setting.value);
        }
        if (setting.key == "offset") {
            said.offset = milliseconds(time::from_milliseconds(options.offset_ms));
        } else if (setting.key == "string-offsets") {
            said.strings = strings_in_words(listen::read_string_offsets(setting.value));
        } else if (setting.key == "midi-pickup") {
            said.cycles = text::read_at(place, [&] { return cycles_of(setting.value); });
        }
    }
    return said;
}

std::string guitar_lines(const std::string& whose, const DelaysSaid& said) {
    if (said.nothing()) return "";
    std::vector<std::string> delays;
    if (said.offset) delays.push_back(*said.offset);
    if (said.cycles) delays.push_back(*said.cycles);
    auto text =
        fmt::format("  {}: {}\n", whose,
                    delays.empty() ? "by string" : fmt::format("{}", fmt::join(delays, " and ")));
    for (const auto& string : said.strings) text += fmt::format("    {}\n", string);
    return text;
}

std::string round_trip_line(const settings::AllSettings& settings) {
    const auto* const kept = settings.find("round-trip");
    if (kept == nullptr) return "";
    const auto known =
        text::read_at(kept->place, [&] { return practice::read_round_trip(kept->value); });
    auto text = fmt::format("  the round trip of the interface: {}\n", milliseconds(known.trip));
    if (!known.path) return text;
    return text + fmt::format("    measured at {} Hz, {} frames, through {}\n", known.path->rate_hz,
                              known.path->period_frames, text::printable(known.path->output));
}

}  // namespace

std::string kept_delays(const settings::AllSettings& settings) {
    auto lines = round_trip_line(settings) + guitar_lines("every guitar", said_by(settings.all));
    for (const auto& guitar : settings.guitars) {
        lines += guitar_lines("guitar " + text::printable(guitar.name), said_by(guitar.settings));
    }
    return "Delays\n" +
           (lines.empty() ? std::string("  none are kept yet: compline calibrate measures them\n")
                          : lines);
}

}  // namespace compline::app
