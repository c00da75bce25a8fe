#pragma once

#include "time_through.hpp"

#include <compline/band/drums.hpp>

namespace compline::band {

/// What the drummer, or the click in place of one, plays one time through.
void write_drums(const TimeThrough& time, LastFigures& last, Part& part);

}  // namespace compline::band
