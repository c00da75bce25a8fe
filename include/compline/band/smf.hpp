#pragma once

#include <compline/band/place.hpp>
#include <compline/midi/smf.hpp>

namespace compline::band {

/// The band's part as a Standard MIDI File, format 1, 15,360 ticks a quarter, from the first beat
/// of the count-in on. A track for tempo, meter, key and markers (`compline:start` at bar 1, the
/// names of the stretches that have one, "section A", chord symbols in plain letters), then one for
/// each role, by General MIDI level 1: drums on channel 10 (51 ride, 49 crash, 44 pedal hi-hat, 36
/// bass drum, 38 snare and brush taps, 70 sweeps, 41 tom, 37 cross-stick, 75 the sticks of the
/// count), bass on channel 2, program 33 counted from 1 (acoustic bass), a melody on channel 1,
/// program 26 (steel guitar), a comping guitar on channel 3, program 27 (jazz guitar). Swing and
/// placement are in the ticks.
[[nodiscard]] midi::File to_smf(const roadmap::RoadMap& map, const Part& part,
                                const Stage& stage = {});

}  // namespace compline::band
