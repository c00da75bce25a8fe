#pragma once

#include <compline/band/band.hpp>
#include <compline/midi/smf.hpp>
#include <compline/time/timeline.hpp>

namespace compline::band {

/// The band's part as a Standard MIDI File, format 1, 15,360 ticks a quarter, from the first beat
/// of the count-in on. Track 1: tempo, meter, markers (`compline:start` at bar 1, "section A",
/// chord symbols in plain letters). Track 2: drums on channel 10, General MIDI keys (level 1
/// percussion map: 51 ride, 44 pedal hi-hat, 36 bass drum, 37 side stick). Track 3: bass on channel
/// 2, program 33 counted from 1 (acoustic bass). Swing is in the ticks.
[[nodiscard]] midi::File to_smf(const chart::Form& form, const Request& request, const Part& part,
                                const time::Groove& groove);

}  // namespace compline::band
