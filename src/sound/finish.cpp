#include "finish.hpp"

#include <algorithm>
#include <cmath>

namespace compline::sound {

Samples finish(const std::vector<double>& sound, double peak, time::Seconds fade,
               time::SampleRate rate) {
    double loudest = 0;
    for (const double sample : sound) loudest = std::max(loudest, std::fabs(sample));
    const double scale = peak / loudest;
    const double fade_frames = fade.count() * rate.hz();
    Samples samples(sound.size());
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double left = static_cast<double>(sound.size() - i);
        samples[i] = static_cast<float>(sound[i] * scale * std::min(1.0, left / fade_frames));
    }
    return samples;
}

}  // namespace compline::sound
