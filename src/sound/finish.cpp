#include "finish.hpp"

#include <algorithm>
#include <cmath>

namespace compline::sound {

std::vector<double> finish(std::vector<double> sound, double peak, time::Seconds fade,
                           time::SampleRate rate) {
    double loudest = 0;
    for (const double sample : sound) loudest = std::max(loudest, std::fabs(sample));
    const double scale = peak / loudest;
    const double fade_frames = fade.count() * rate.hz();
    for (double& sample : sound) sample *= scale;
    const auto fading = std::min(sound.size(), static_cast<std::size_t>(fade_frames));
    for (std::size_t left = 1; left <= fading; ++left) {
        sound[sound.size() - left] *= static_cast<double>(left) / fade_frames;
    }
    return sound;
}

Samples in_floats(const std::vector<double>& sound) {
    Samples samples(sound.size());
    for (std::size_t i = 0; i < sound.size(); ++i) samples[i] = static_cast<float>(sound[i]);
    return samples;
}

}  // namespace compline::sound
