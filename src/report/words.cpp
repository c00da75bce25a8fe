#include "words.hpp"

#include <compline/practice/in_time.hpp>

#include <fmt/format.h>

#include <cmath>

namespace compline::report {

std::string plural(int n, const char* one, const char* many) {
    return fmt::format("{} {}", n, n == 1 ? one : many);
}

std::string ordinal(int n) {
    const int tens = n % 100;
    const bool teen = tens >= 11 && tens <= 13;
    const char* ending = teen          ? "th"
                         : n % 10 == 1 ? "st"
                         : n % 10 == 2 ? "nd"
                         : n % 10 == 3 ? "rd"
                                       : "th";
    return fmt::format("{}{}", n, ending);
}

std::string plain(double value) { return fmt::format("{:.6g}", value); }

std::string tempo_number(time::Bpm tempo) { return plain(std::round(tempo.count() * 10) / 10); }

std::string bars_words(chart::Passage bars) {
    if (bars.from == bars.to) return fmt::format("bar {}", bars.from);
    return fmt::format("bars {}-{}", bars.from, bars.to);
}

std::string meter_words(const time::Meter& meter) {
    const auto written = meter.written();
    return fmt::format("{}/{}", written.above, written.below);
}

InTime in_time(const assess::Assessment& assessment) {
    InTime in_time;
    for (const auto& change : assessment.changes) {
        if (!practice::counts_for_time(change)) continue;
        ++in_time.of;
        if (practice::is_in_time(change)) ++in_time.changes;
    }
    return in_time;
}

std::string spread_words(const assess::Spread& spread) {
    if (!spread.mean_ms) return "";
    const double mean = std::round(*spread.mean_ms);
    std::string text = mean > 0   ? fmt::format("{:.0f} ms behind", mean)
                       : mean < 0 ? fmt::format("{:.0f} ms ahead", -mean)
                                  : std::string("0 ms off");
    if (spread.sd_ms) text += fmt::format(", SD {:.0f} ms", *spread.sd_ms);
    return text;
}

}  // namespace compline::report
