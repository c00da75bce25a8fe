#pragma once

#include <compline/time/meter.hpp>
#include <compline/time/units.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace compline::chart {

// How the signs of a bar share it: equally, where their number divides its beats; or one for each
// note that the meter counts (six in 6/8), in 2/2 for each quarter. Two in five beats have three
// and two (common practice, no source).

/// How long each sign lasts; empty when so many do not share the bar.
[[nodiscard]] std::vector<time::Ticks> shares_of_signs(time::Meter meter, std::size_t signs);

/// Whether so many signs are one for each beat, or for each counted note, so that a `/` among them
/// means something.
[[nodiscard]] bool one_a_beat(time::Meter meter, std::size_t signs);

/// The numbers of signs that share a bar: "1, 2 or 4".
[[nodiscard]] std::string counts_that_fit(time::Meter meter);

/// The numbers of signs that are one a beat: "4", "2 or 6".
[[nodiscard]] std::string counts_by_beat(time::Meter meter);

/// "4/4", "6/8".
[[nodiscard]] std::string meter_name(time::Meter meter);

}  // namespace compline::chart
