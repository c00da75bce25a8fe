#include <compline/practice/known_round_trip.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/text/numbers.hpp>
#include <compline/text/printable.hpp>

#include <fmt/format.h>

namespace compline::practice {

namespace {

using text::BadInput;

constexpr std::string_view at = " at ";
constexpr std::string_view by = " by ";
constexpr const char* an_example =
    "write milliseconds, or 11.354 at 48000/256 by JACK:system: what it was measured on";

time::Seconds read_trip(std::string_view words) {
    const auto ms = text::read_number(words);
    if (ms && *ms >= 0 && *ms <= longest_round_trip_ms) return time::from_milliseconds(*ms);
    throw BadInput(
        "", fmt::format("{} is no round trip", text::quoted(words)),
        fmt::format("write milliseconds from {}", text::range_in_words(0, longest_round_trip_ms)));
}

/// "48000/256 by JACK:system"
SoundPath read_path(std::string_view words) {
    const auto slash = words.find('/');
    const auto name = words.find(by);
    if (slash == std::string_view::npos || name == std::string_view::npos || slash > name) {
        throw BadInput("",
                       fmt::format("{} does not say what it was measured on", text::quoted(words)),
                       an_example);
    }
    const auto rate = text::read_count(words.substr(0, slash));
    const auto period = text::read_count(words.substr(slash + 1, name - slash - 1));
    auto output = std::string(words.substr(name + by.size()));
    if (!rate || !period || *rate < 1 || *period < 1 || output.empty()) {
        throw BadInput("", fmt::format("{} is no rate, period and output", text::quoted(words)),
                       an_example);
    }
    return {*rate, *period, std::move(output)};
}

}  // namespace

std::string in_words(const SoundPath& path) {
    return fmt::format("{}/{}{}{}", path.rate_hz, path.period_frames, by, path.output);
}

KnownRoundTrip read_round_trip(std::string_view words) {
    const auto end = words.find(at);
    if (end == std::string_view::npos) return {read_trip(words), std::nullopt};
    return {read_trip(words.substr(0, end)), read_path(words.substr(end + at.size()))};
}

std::string in_words(const KnownRoundTrip& known) {
    const auto ms = text::to_three_decimals(known.trip.milliseconds());
    return known.path ? fmt::format("{}{}{}", ms, at, in_words(*known.path)) : ms;
}

}  // namespace compline::practice
