#pragma once

#include "bass_rhythm.hpp"

#include <cstddef>
#include <vector>

namespace compline::band {

/// Where the bass plays in one bar, in order, and what for, whatever the next bar brings: see
/// places_of(). number: of the bar, among those of the changes.
[[nodiscard]] std::vector<BassPlace> places_in_bar(const BassBar& bar, std::size_t number,
                                                   const std::vector<ChordToPlay>& changes,
                                                   KeyedChance chance, time::Meter meter);

}  // namespace compline::band
