#pragma once

#include <compline/band/band.hpp>

#include <cstdint>
#include <vector>

namespace compline::band {

// What a drummer plays beside the same bar over and over: fills, and the bars of a phrase (common
// practice, no source).

/// A stroke of a fill; eighth: 0 is on the last beat but one, 3 the very last of the bar.
struct FillStroke {
    int eighth;
    Drum drum;
    int velocity;
};

/// A fill in place of the time, 0 to fill_figures - 1 (asserted). Of one beat where its first
/// stroke is eighth 2.
[[nodiscard]] const std::vector<FillStroke>& fill_figure(int figure, bool brushed);

/// A light one beside the time, 0 to light_figures - 1 (asserted).
[[nodiscard]] const std::vector<FillStroke>& light_figure(int figure, bool brushed);

/// How a bar of the time is made lighter: by a skip left out.
enum class Cell {
    usual,
    leads_on,  ///< its last skip alone, ahead of 1
    leads_in,  ///< its first skip alone, ahead of 3
    quarters,
};

/// phrase: its chance; bar: in the phrase, 0 to 3.
[[nodiscard]] Cell cell_of(std::uint64_t phrase, int bar);

/// How much louder the hands are at a place of a phrase: up to its fourth bar, then down.
[[nodiscard]] int swell(time::Ticks in_phrase, time::Ticks bar);

}  // namespace compline::band
