#pragma once

#include "comping_cells.hpp"

#include <compline/band/comping.hpp>

#include <cstdint>
#include <vector>

namespace compline::band {

/// Where a bar is struck, kicks aside.
struct CompedBar {
    Eighths struck;       ///< the last off-beat plays the next bar's chord where that is pushed
    bool pushed = false;  ///< its first chord comes on the off-beat before it
};

/// A rhythm for all the bars: cells, air, pushes, and each chord heard.
[[nodiscard]] std::vector<CompedBar> choose_rhythms(const std::vector<CompBar>& bars,
                                                    const time::Meter& usual, std::uint64_t seed);

}  // namespace compline::band
