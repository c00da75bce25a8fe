#pragma once

#include "candidates.hpp"
#include "finger_table.hpp"

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace compline::guitar {

// The exact way round a tune: one grip for each chord, the last leading back to the first, such
// that the sum of what grips and moves cost is the least there is.
//
// Forward, chord by chord, the best way to each grip is kept (a Bellman recursion, see
// forward_walk.hpp). That does not yet close the ring: the best way through may begin with one grip
// and lead back to another. So its cost bounds the answer from below, and the same way with its
// seam mended bounds it from above. A walk back (see closing.hpp) drops every grip through which no
// way lies below the upper bound, or below a guess first; of the few that are left, each that may
// still be the beginning is tried.

/// A chord of the ring: the grips it may have, and how much time there is to get there.
struct Stop {
    std::shared_ptr<const Candidates> candidates;
    std::vector<std::uint32_t> ids;  ///< those of them that take part, ascending; one at least
    WayIn way_in;                    ///< the move that leads here
};

/// One grip for each stop.
struct Way {
    std::vector<std::uint32_t> ids;
    Cost cost = 0;
};

/// The best way round. Of several that cost the same it is always the same one. One stop at least.
/// `below`: only a way that costs less counts.
[[nodiscard]] std::optional<Way> best_way(const FingerTable& table, const std::vector<Stop>& stops,
                                          std::optional<Cost> below = std::nullopt);

/// What a way costs.
[[nodiscard]] Cost cost_of(const std::vector<Stop>& stops, const std::vector<std::uint32_t>& ids);

}  // namespace compline::guitar
