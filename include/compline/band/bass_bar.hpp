#pragma once

#include <compline/chart/chart.hpp>

#include <vector>

namespace compline::band {

/// A bar as the bass player reads it.
struct BassBar {
    std::vector<chart::Slot> chords;  ///< fill the bar without a gap, in order
    chart::Bass bass = chart::Bass::walking;
    chart::Feel feel = chart::Feel::swing;
    std::vector<time::Ticks> kicks;  ///< to be marked; from the bar line, ascending
};

}  // namespace compline::band
