#pragma once

#include <compline/sound/bank.hpp>
#include <compline/time/units.hpp>

#include <cstdint>
#include <limits>
#include <type_traits>

namespace compline::sound {

/// "Play this sound from this frame on": what a mixer is fed.
struct Cue {
    /// The stop of a sound that rings out.
    static constexpr time::Frames never{std::numeric_limits<std::int64_t>::max()};

    time::Frames at;            ///< its first sample lands on this frame
    time::Frames stop = never;  ///< damped from here, silent a release later
    SoundId sound;
    float gain = 1.0F;  ///< 0 and up; 1 is the sound as made
    float pan = 0.0F;   ///< -1 left, 1 right; equal power
};
static_assert(std::is_trivially_copyable_v<Cue>);

/// How long a damped sound takes to fade: long enough not to click, short enough to be an end.
inline constexpr time::Seconds release{0.030};

}  // namespace compline::sound
