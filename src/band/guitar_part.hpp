#pragma once

#include "time_through.hpp"

#include <compline/band/comping.hpp>

namespace compline::band {

/// A grip struck, its strings one after the other. A full one is as loud as a small one: power goes
/// by the fourth power of the velocity, times the strings.
void strike(const guitar::VoicingPlan& plan, const guitar::Shape& shape, const CompStrum& strum,
            Part& part);

/// What the guitar of the band, where there is one, comps one time through.
void write_guitar(const TimeThrough& time, Part& part);

}  // namespace compline::band
