#pragma once

#include "bass_choices.hpp"

#include <compline/band/walk.hpp>

namespace compline::band {

/// What a place may be, in the octaves where the line is. bar: the one it is in. height: where the
/// line is to be, a MIDI note number. chance: of the bar; retries: 0 at first, more for each time
/// that a line through here was thrown away.
[[nodiscard]] Step step_of(const BassPlace& place, const LineContext& outlook, const BassBar& bar,
                           int height, KeyedChance chance, int retries);

}  // namespace compline::band
