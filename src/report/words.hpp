#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/chart/form.hpp>
#include <compline/time/meter.hpp>
#include <compline/time/units.hpp>

#include <string>

namespace compline::report {

// Words that the report and the lines shown while playing share.

/// "1 strum", "14 strums".
[[nodiscard]] std::string plural(int n, const char* one, const char* many);

/// "1st", "2nd", "11th", "23rd".
[[nodiscard]] std::string ordinal(int n);

/// A number without trailing zeros: 132, 2.5.
[[nodiscard]] std::string plain(double value);

/// A tempo to a tenth: what is heard of it, and more.
[[nodiscard]] std::string tempo_number(time::Bpm tempo);

/// "bar 7", "bars 5-8".
[[nodiscard]] std::string bars_words(chart::Passage bars);

/// "4/4", "6/8".
[[nodiscard]] std::string meter_words(const time::Meter& meter);

/// How many changes landed in time, waits not among them, of those that were played: struck, held
/// or missed, but not laid out. What is uncertain is neither.
struct InTime {
    int changes = 0;
    int of = 0;
};
[[nodiscard]] InTime in_time(const assess::Assessment& assessment);

/// "6 ms behind, SD 14 ms"; nothing where there is no mean.
[[nodiscard]] std::string spread_words(const assess::Spread& spread);

}  // namespace compline::report
