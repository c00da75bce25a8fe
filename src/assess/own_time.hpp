#pragma once

#include "grid.hpp"
#include "player.hpp"
#include "reading.hpp"
#include "time_keeping.hpp"

#include <compline/assess/assessment.hpp>

#include <vector>

namespace compline::assess {

/// What a reading tells of the player, for the next one.
[[nodiscard]] Player learn(const Reading& reading, const Targets& targets, const Grid& grid,
                           const std::vector<Asynchrony>& all);

/// What "in time" is for this player, and what the report says of it.
struct JudgedBy {
    OwnTime own;
    OwnPlace place;
};
[[nodiscard]] JudgedBy own_time(const Reading& reading, const Targets& targets, const Grid& grid,
                                const std::vector<Asynchrony>& all, const Settings& settings);

}  // namespace compline::assess
