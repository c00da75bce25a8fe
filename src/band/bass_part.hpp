#pragma once

#include "time_through.hpp"

#include <compline/band/bass.hpp>

namespace compline::band {

/// What the bass plays one time through, the next one in view. writer: has written those before.
void write_bass(const TimeThrough& time, BassWriter& writer, Part& part);

}  // namespace compline::band
