#pragma once

#include "front.hpp"
#include "ring.hpp"

#include <cstdint>
#include <vector>

namespace compline::guitar {

/// Some grips of a stop, each with what a way costs.
struct Reckoned {
    std::vector<std::uint32_t> ids;  ///< ascending
    std::vector<Known> costs;        ///< one an id
};

/// What a hasty walk from the end of a ring back to its beginning makes of the way: a good guess of
/// what is still to be paid from each stop on. It follows a handful of likely grips at each stop
/// and loses sight of the others, so it is no proof of anything; it tells an exact walk where not
/// to waste its time. Beyond the last stop is home: the first again, where nothing is to be paid.
struct Outlook {
    std::vector<Cost> ahead;       ///< from each stop on, its grip included; 0 at home
    std::vector<Reckoned> likely;  ///< the same by grip; these ways there are
};

[[nodiscard]] Outlook look_ahead(const FingerTable& table, const std::vector<Stop>& stops);

}  // namespace compline::guitar
