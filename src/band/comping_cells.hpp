#pragma once

#include <compline/chart/manner.hpp>
#include <compline/time/meter.hpp>

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
[[nodiscard]] const std::vector<CompCell>& comp_cells(chart::Feel feel, const time::Meter& meter);

/// For bars of two chords, the second on `middle_of(meter)`; none in 3/4 and 9/8.
[[nodiscard]] const std::vector<CompCell>& half_bar_cells(chart::Feel feel,
                                                          const time::Meter& meter);

/// The eighth on which the second half of a bar begins; none in 3/4 and 9/8: 0.
[[nodiscard]] int middle_of(const time::Meter& meter);

}  // namespace compline::band
