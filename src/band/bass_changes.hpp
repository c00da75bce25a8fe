#pragma once

#include "bass_tones.hpp"

#include <compline/band/bass_bar.hpp>
#include <compline/time/meter.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace compline::band {

/// Where each of the bars begins, one after the other, and where the last one ends.
[[nodiscard]] std::vector<time::Ticks> lines_of(const std::vector<BassBar>& bars);

/// What chords start on: the quarter, in double-time the eighth, in 6/8, 9/8 and 12/8 the beat.
[[nodiscard]] time::Ticks chord_step(const time::Meter& meter);

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
                                                  std::size_t seam);

}  // namespace compline::band
