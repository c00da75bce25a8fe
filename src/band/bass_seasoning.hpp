#pragma once

#include "bass_rhythm.hpp"

#include <compline/band/walk.hpp>

#include <cstddef>
#include <vector>

namespace compline::band {

/// A short note on the off-beat between two notes of a line.
struct Seasoned {
    std::size_t before = 0;  ///< place that it comes right before, 1 and more
    harmony::MidiNote note;
    bool dead = false;
};

/// How a player seasons a line that is settled, here and there, more often where a phrase ends:
/// with skip notes (the note before once more, or the chord's root or fifth) and with dead ones.
/// The line itself stays as it is, so a plain one has the same notes on its beats. Never into a
/// chord after a rest, nor into the very last note. places, line: one each; chances: one a bar.
[[nodiscard]] std::vector<Seasoned> season(const std::vector<BassBar>& bars,
                                           const std::vector<ChordToPlay>& changes,
                                           const std::vector<BassPlace>& places,
                                           const std::vector<Choice>& line,
                                           const std::vector<KeyedChance>& chances);

}  // namespace compline::band
