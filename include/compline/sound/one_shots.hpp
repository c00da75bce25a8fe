#pragma once

#include <compline/harmony/pitch.hpp>
#include <compline/time/units.hpp>

#include <vector>

namespace compline::sound {

// The band's sounds, computed from formulas: no file is needed and every machine makes the same.
// Each speaks on its very first sample (that sample is not zero), so that a stroke can be found
// on its frame, and dies away to nothing. Mono, peaks given below at full velocity.

using Samples = std::vector<float>;

[[nodiscard]] Samples make_ride(time::SampleRate rate);        ///< stick and wash, 1.5 s
[[nodiscard]] Samples make_hihat_foot(time::SampleRate rate);  ///< short and dry
[[nodiscard]] Samples make_kick(time::SampleRate rate);        ///< soft beater, felt
[[nodiscard]] Samples make_stick(time::SampleRate rate);       ///< two sticks, for counting in

/// A plucked double-bass string, note 28 to 55. In tune by ISO 16 (A4 = 440 Hz): its partials are
/// exact multiples of the note's frequency.
[[nodiscard]] Samples make_bass(harmony::MidiNote note, time::SampleRate rate);

/// A plucked guitar string, note 40 to 88: for the guitarist of the demo.
[[nodiscard]] Samples make_guitar(harmony::MidiNote note, time::SampleRate rate);

}  // namespace compline::sound
