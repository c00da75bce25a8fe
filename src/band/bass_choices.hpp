#pragma once

#include "bass_pitches.hpp"
#include "bass_rhythm.hpp"

#include <vector>

namespace compline::band {

/// What the choices of a place depend on.
struct LineContext {
    const std::vector<ChordToPlay>& changes;
    time::Ticks seam;  ///< where the next stretch begins: nobody waits for its root
    int home = 0;      ///< pitch class of the very last note
};

/// Chance adds 0 to 5 to a cost. Costs are weighed against those of walk(): there a step is 0 and a
/// fifth 4.
inline constexpr int wishes = 6;

/// What a place may be, in any octave.
struct Wanted {
    Pitches pitches;
    bool again = false;  ///< the root of a short chord is struck again
};

/// bar: the one it is in; chance: of the bar.
[[nodiscard]] Wanted wanted_at(const BassPlace& place, const LineContext& outlook,
                               const BassBar& bar, KeyedChance chance);

}  // namespace compline::band
