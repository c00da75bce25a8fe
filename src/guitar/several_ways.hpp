#pragma once

#include "echoes.hpp"

#include <vector>

namespace compline::guitar {

/// The best ways, no two with the same shapes throughout, the best first; `count` of them or all
/// there are. With echoes (see echoes.hpp) ways in which these have the grips that they echo, the
/// best one and others of grips that good ways have.
[[nodiscard]] std::vector<WayRound> best_ways(const FingerTable& table,
                                              const std::vector<Stop>& stops, int count,
                                              const Echoes& echoes = {});

}  // namespace compline::guitar
