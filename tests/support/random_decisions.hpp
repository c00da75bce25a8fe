#pragma once

#include <compline/roadmap/road_map.hpp>

#include <optional>
#include <random>

namespace compline::tests {

/// A decision may count from a bar on that begins so long after it was made, or later.
inline constexpr time::Seconds soonest{0.25};

/// Something that a player may decide: any tempo, anybody lays out or is back, another way, a pause
/// and how it ends; now and then nothing, or that it is enough. `now`: what is played now.
[[nodiscard]] std::optional<roadmap::Decision> random_decision(const roadmap::RoadMap& map,
                                                               time::Seconds now,
                                                               std::mt19937& chance);

}  // namespace compline::tests
