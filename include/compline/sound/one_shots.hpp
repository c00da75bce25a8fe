#pragma once

#include <compline/harmony/pitch.hpp>
#include <compline/time/units.hpp>

#include <vector>

namespace compline::sound {

// The band's sounds, computed from formulas: no file is needed, and every machine makes the same,
// to the last bit. Each speaks on its very first sample (that sample is not zero), so that a stroke
// can be found on its frame, and dies away to nothing. Mono, with peaks of 0.4 to 0.6 (how loud
// each is beside the others is the band's matter). A sound is the same sound at every rate
// from 44.1 kHz up: as long, as loud, as bright.

using Samples = std::vector<float>;

[[nodiscard]] Samples make_ride(time::SampleRate rate);         ///< stick's tip and wash
[[nodiscard]] Samples make_hihat_foot(time::SampleRate rate);   ///< short and dry
[[nodiscard]] Samples make_kick(time::SampleRate rate);         ///< soft beater, felt
[[nodiscard]] Samples make_stick(time::SampleRate rate);        ///< two sticks, for counting in
[[nodiscard]] Samples make_crash(time::SampleRate rate);        ///< opens and rings, 2.5 s
[[nodiscard]] Samples make_cross_stick(time::SampleRate rate);  ///< click on the rim, wooden body
[[nodiscard]] Samples make_snare(time::SampleRate rate);        ///< stick, skin and wires
[[nodiscard]] Samples make_tom(time::SampleRate rate);          ///< floor tom
[[nodiscard]] Samples make_brush_tap(time::SampleRate rate);    ///< a brush laid flat on the snare
[[nodiscard]] Samples make_brush_sweep(time::SampleRate rate);  ///< a brush stirred, 0.45 s

/// A plucked double-bass string, note 28 to 55. In tune by ISO 16 (A4 = 440 Hz): its partials are
/// exact multiples of the note's frequency. It begins with a thump and is 40 dB down after 1 to 2
/// s.
[[nodiscard]] Samples make_bass(harmony::MidiNote note, time::SampleRate rate);

/// A plucked guitar string, note 40 to 88: for the guitarist of the demo.
[[nodiscard]] Samples make_guitar(harmony::MidiNote note, time::SampleRate rate);

}  // namespace compline::sound
