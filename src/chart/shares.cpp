#include "shares.hpp"

#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

namespace compline::chart {

namespace {

/// The shortest sign that is written for itself: a counted note, in 2/2 a quarter.
std::size_t finest(time::Meter meter) {
    const auto unit = std::min(meter.counted(), time::quarter_note);
    return static_cast<std::size_t>(meter.bar() / unit);
}

std::string counts_for_which(time::Meter meter, bool (*fits)(time::Meter, std::size_t)) {
    std::vector<std::string> words;
    for (std::size_t n = 1; n <= finest(meter); ++n) {
        if (fits(meter, n)) words.push_back(std::to_string(n));
    }
    return text::listed(words, "or");
}

}  // namespace

std::vector<time::Ticks> shares_of_signs(time::Meter meter, std::size_t signs) {
    const auto beats = static_cast<std::size_t>(meter.beats());
    if (beats == 5 && signs == 2) return {meter.beat() * 3, meter.beat() * 2};
    if (signs == 0) return {};
    if (signs != finest(meter) && (signs > beats || beats % signs != 0)) return {};
    return std::vector<time::Ticks>(
        signs, time::Ticks(meter.bar().count() / static_cast<std::int64_t>(signs)));
}

bool one_a_beat(time::Meter meter, std::size_t signs) {
    return signs == static_cast<std::size_t>(meter.beats()) || signs == finest(meter);
}

std::string counts_that_fit(time::Meter meter) {
    return counts_for_which(
        meter, [](time::Meter of, std::size_t n) { return !shares_of_signs(of, n).empty(); });
}

std::string counts_by_beat(time::Meter meter) { return counts_for_which(meter, one_a_beat); }

std::string meter_name(time::Meter meter) {
    const auto written = meter.written();
    return fmt::format("{}/{}", written.above, written.below);
}

}  // namespace compline::chart
