#pragma once

#include <compline/time/units.hpp>

#include <vector>

namespace compline::sound {

/// A sound at another rate, by a sinc in a window of 32 zero crossings: level up to 0.45 of the
/// lower rate, and nothing audible folded back. What the window would spread before the first
/// sample is cut off: sounds begin where they began. The same rate: the same samples.
[[nodiscard]] std::vector<double> resampled(const std::vector<double>& sound, time::SampleRate from,
                                            time::SampleRate to);

}  // namespace compline::sound
