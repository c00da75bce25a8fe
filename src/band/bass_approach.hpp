#pragma once

#include "bass_pitches.hpp"
#include "bass_rhythm.hpp"

namespace compline::band {

/// The ways from a chord into the bass note of the next, `cost` more dear than they are: by a
/// semitone, a whole tone or a fifth. chance likes one of them best, so that not every change is
/// led into alike. Both changes are chords.
void allow_approaches(Pitches& pitches, const ChordToPlay& now, const ChordToPlay& next,
                      KeyedChance chance, int cost);

}  // namespace compline::band
