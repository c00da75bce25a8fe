#pragma once

#include <compline/time/meter.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace compline::chart {

// How the signs of a bar share its beats: equally, where their number divides the beats. Two in
// five beats have three and two (common practice, no source).

/// The beats of each sign; empty when so many do not share the bar.
[[nodiscard]] std::vector<int> beats_of_signs(time::Meter meter, std::size_t signs);

/// The numbers of signs that share a bar: "1, 2 or 4".
[[nodiscard]] std::string counts_that_fit(time::Meter meter);

}  // namespace compline::chart
