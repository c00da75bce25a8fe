#pragma once

#include "road.hpp"

#include <compline/simulate/habits.hpp>

#include <optional>
#include <vector>

namespace compline::simulate {

/// One stroke of a rhythm.
struct Beat {
    enum class What { grip, upper_strings, bass, fifth, fill, melody };
    time::Ticks at;
    What what = What::grip;
};

/// Where a chord comes in, after its start: 0 on it, -480 on the off-beat before. None: it is too
/// short for this rhythm, and is left out.
[[nodiscard]] std::optional<time::Ticks> entry_of(Comping comping, time::Meter meter,
                                                  const Area& area);

/// Every stroke of a chord, in order of time; the first grip is its entry. `filled`: with what the
/// comping has of single notes.
[[nodiscard]] std::vector<Beat> rhythm_of(Comping comping, time::Meter meter, const Area& area,
                                          bool filled);

}  // namespace compline::simulate
