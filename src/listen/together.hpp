#pragma once

#include <compline/time/units.hpp>

namespace compline::listen {

/// Notes that begin within this of each other were struck together. In two real takes through a
/// six-way pickup a strum spreads over 52 ms at most.
inline constexpr time::Seconds together{0.060};

}  // namespace compline::listen
