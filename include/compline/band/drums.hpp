#pragma once

#include <compline/band/band.hpp>
#include <compline/time/meter.hpp>

#include <vector>

namespace compline::band {

// Time-keeping as jazz drummers play it (common practice, no source):
//   4/4: ride 1, 2, 2&, 3, 4, 4& (a little louder on 2 and 4), hi-hat foot on 2 and 4, the kick
//        feathered on all four beats, felt rather than heard;
//   3/4: ride 1, 2, 2&, 3, hi-hat foot on 2 and 3, the kick feathered on 1.
// Skips are written on the off-beat eighth: the groove's swing puts them where they are played, so
// a straight feel has the same written positions.

/// The drummer's time for `bars` bars from tick 0, in order of time, strokes struck together in
/// the order of Drum. meter: 3 or 4 beats (asserted).
[[nodiscard]] std::vector<Stroke> keep_time(time::Meter meter, int bars);

/// Stick clicks that end where bar 1 begins; negative ticks. Two bars: the first in half time
/// (4/4: 1 and 3; 3/4: 1 alone), the second on every beat. One bar: every beat. bars: 0 to 2
/// (asserted).
[[nodiscard]] std::vector<Stroke> count_in(time::Meter meter, int bars);

}  // namespace compline::band
