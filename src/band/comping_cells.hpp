#pragma once

#include <compline/chart/manner.hpp>

#include <vector>

namespace compline::band {

/// Where a bar is struck: eighths from its bar line, ascending. The last off-beat pushes the chord
/// of the next bar, where another comes.
using Eighths = std::vector<int>;

/// Two bars of comping.
struct CompCell {
    Eighths first;
    Eighths second;
};

/// For bars of one chord.
[[nodiscard]] const std::vector<CompCell>& comp_cells(chart::Feel feel, int beats);

/// For bars of two chords, the second on `middle_of(beats)`; none in 3/4.
[[nodiscard]] const std::vector<CompCell>& half_bar_cells(chart::Feel feel, int beats);

/// The beat, from 0, on which the second half of a bar begins; none in 3/4: 0.
[[nodiscard]] int middle_of(int beats);

}  // namespace compline::band
