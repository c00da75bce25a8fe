#pragma once

#include <compline/band/band.hpp>
#include <compline/sound/cue.hpp>
#include <compline/time/timeline.hpp>
#include <compline/time/units.hpp>

#include <vector>

namespace compline::band {

/// How loud and where the band stands.
struct Balance {
    float drums = 1.0F;  ///< gain, 0 and up
    float bass = 1.0F;
    float width = 1.0F;   ///< 0: all at one point, 1: as on a bandstand
    float centre = 0.0F;  ///< where that point is, -1 left to 1 right
};

/// The part in time and sound: a cue for each stroke and note on the frame nearest to its exact
/// time, sorted by frame. Each is computed from its own position, so nothing adds up over a long
/// evening. Bass notes are damped at their written end.
///
/// zero: the frame of bar 1 beat 1, that is of time 0 on the groove's timeline.
[[nodiscard]] std::vector<sound::Cue> place(const Part& part, const time::Groove& groove,
                                            time::SampleRate rate, time::Frames zero,
                                            const Balance& balance = {});

/// The gain of a velocity: (velocity/127) squared, the concave curve of the DLS Level 1
/// specification (MIDI Manufacturers Association, 1997).
[[nodiscard]] float gain_of(int velocity);

}  // namespace compline::band
