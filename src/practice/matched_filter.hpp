#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace compline::practice {

/// How much of a waveform there is in a sound from each of its frames on: 1 where the waveform
/// itself stands there, -1 turned over, 0.5 at half the level. As long as the sound is before the
/// waveform would reach beyond its end.
[[nodiscard]] std::vector<double> matched(std::span<const float> sound,
                                          std::span<const float> waveform);

/// The root mean square that noise of these values would have, by the median of their sizes: the
/// few that stand out do not matter.
[[nodiscard]] double noise_of(std::vector<double> values);

/// The top of a peak, by the parabola through its three highest values.
struct Top {
    double at = 0;    ///< to a fraction of an index
    double size = 0;  ///< without its sign
};
/// index: of a value that is not smaller than those beside it.
[[nodiscard]] Top top_of(std::span<const double> values, std::size_t index);

}  // namespace compline::practice
