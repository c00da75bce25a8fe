#pragma once

#include <compline/sound/one_shots.hpp>

#include <cstddef>
#include <vector>

namespace compline::sound {

/// Silence to build a sound in.
[[nodiscard]] inline std::vector<double> canvas(time::Seconds length, time::SampleRate rate) {
    return std::vector<double>(static_cast<std::size_t>(time::nearest_frame(length, rate).count()));
}

/// Scales to a peak and leads the end down to nothing over `fade`.
[[nodiscard]] std::vector<double> finish(std::vector<double> sound, double peak, time::Seconds fade,
                                         time::SampleRate rate);

[[nodiscard]] Samples in_floats(const std::vector<double>& sound);

}  // namespace compline::sound
