#pragma once

#include "stops.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace compline::guitar {

// A stretch of a tune that comes back, chord for chord, has the same grips each time, but for its
// first: that goes with the way in. A player learns one A. A tie, not a weight (2026-11-29): as a
// weight it would make the search look at pairs of stops far apart.

/// For each stop the first stop that it has its grip from; itself where it is free. Empty: all
/// free.
using Echoes = std::vector<std::size_t>;

/// The stretches of four bars and four chords or more that come back with the same chords on the
/// same beats.
[[nodiscard]] Echoes echoes_of(const Tune& tune, time::Meter meter);

/// The best way round in which echoes have the grips that they echo. Which of the occurrences of a
/// stretch is the pattern for the others is decided by what the best free way makes of each: the
/// one that costs least in all places. All that is not tied by this is then chosen anew, exactly.
/// Without echoes: best_way(). `below`: only a way that costs less counts.
[[nodiscard]] std::optional<WayRound> best_echoing_way(const FingerTable& table,
                                                       const std::vector<Stop>& stops,
                                                       const Echoes& echoes,
                                                       std::optional<Cost> below = std::nullopt);

}  // namespace compline::guitar
