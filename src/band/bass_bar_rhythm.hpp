#pragma once

#include "bass_rhythm.hpp"

#include <cstddef>
#include <vector>

namespace compline::band {

/// Where the bass plays in one bar, in order, and what for, whatever the next bar brings: see
/// places_of(). number: of the bar, among those of the changes; line: where it begins.
[[nodiscard]] std::vector<BassPlace> places_in_bar(const BassBar& bar, std::size_t number,
                                                   const std::vector<ChordToPlay>& changes,
                                                   time::Ticks line, KeyedChance chance);

}  // namespace compline::band
