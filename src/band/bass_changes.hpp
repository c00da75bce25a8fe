#pragma once

#include "bass_tones.hpp"

#include <compline/band/bass_bar.hpp>
#include <compline/time/meter.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace compline::band {

/// A chord of the changes, as long as it lasts. It starts on a beat; what is written between two
/// beats starts on the second of them.
struct ChordToPlay {
    time::Ticks from;
    time::Ticks to;
    std::optional<BassTones> tones;  ///< none: N.C.
    PitchClassSet scale;             ///< as the chords around have it
};

/// The changes of bars played one after the other; a chord that goes on over a bar line is one
/// change, but not over a seam: where another stretch begins its chord starts anew.
[[nodiscard]] std::vector<ChordToPlay> changes_of(const std::vector<BassBar>& bars,
                                                  std::size_t seam, time::Meter meter);

}  // namespace compline::band
