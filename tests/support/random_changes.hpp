#pragma once

#include <compline/band/bass_bar.hpp>
#include <compline/time/meter.hpp>

#include <cstdint>
#include <vector>

namespace compline::tests {

/// Changes that nobody would write: all qualities, alterations, slash chords, one, two and four
/// chords a bar (three, five and six in other meters), one chord for sixteen bars, bars without a
/// chord. Bars ask for no manner and no kicks. The same seed gives the same changes.
std::vector<band::BassBar> random_changes(time::Meter meter, std::uint64_t seed);

/// Kicks on some of the beats and off-beats of about one bar in three.
void add_random_kicks(std::vector<band::BassBar>& bars, time::Meter meter, std::uint64_t seed);

}  // namespace compline::tests
