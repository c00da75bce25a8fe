#pragma once

#include <compline/time/meter.hpp>

namespace compline::time {

/// Whether a beat of the bar, from 0, carries weight: where a half of the bar or one of its groups
/// begins. 4/4 has 1 and 3, 3/4 has 1; five is three and two, six twice three: 1 and 4. (Common
/// practice, no source.)
[[nodiscard]] constexpr bool is_strong_beat(Meter meter, int beat) {
    return beat % (meter.beats() == 4 ? 2 : 3) == 0;
}

}  // namespace compline::time
