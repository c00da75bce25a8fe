#include "wire.hpp"

#include "plucked.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace compline::tests {

namespace {

/// A sinc under a Hann window, 64 frames wide.
double windowed_sinc(double x) {
    constexpr double half = 32;
    if (std::fabs(x) >= half) return 0;
    const double turns = std::numbers::pi * x;
    const double sinc = x == 0 ? 1 : std::sin(turns) / turns;
    return sinc * (0.5 + 0.5 * std::cos(turns / half));
}

/// Adds a waveform from a frame on that need not be whole.
void add_at(std::vector<float>& sound, const std::vector<float>& waveform, double at, double gain) {
    const auto first = static_cast<std::int64_t>(std::floor(at)) - 32;
    const auto frames = static_cast<std::int64_t>(waveform.size()) + 64;
    for (std::int64_t i = std::max<std::int64_t>(0, first);
         i < std::min(first + frames, std::ssize(sound)); ++i) {
        double sum = 0;
        for (std::size_t k = 0; k < waveform.size(); ++k) {
            sum +=
                waveform[k] * windowed_sinc(static_cast<double>(i) - at - static_cast<double>(k));
        }
        sound[static_cast<std::size_t>(i)] += static_cast<float>(gain * sum);
    }
}

}  // namespace

std::vector<float> Wire::recorded(const practice::ClickTrain& train) const {
    std::vector<float> sound(static_cast<std::size_t>(train.length().count()));
    std::copy_n(beside.begin(), std::min(beside.size(), sound.size()), sound.begin());
    int index = 0;
    for (const auto click : train.clicks()) {
        const double lost = index++ > lost_after_click ? lost_frames : 0;
        const double at = static_cast<double>(click.count()) + delay - lost;
        if (gain != 0) add_at(sound, train.waveform(), at, gain);
        if (echo_gain != 0) add_at(sound, train.waveform(), at + echo_after, gain * echo_gain);
    }
    if (hum_hz > 0) add_hum(sound, train.rate(), hum_hz, hum_db);
    if (hiss_db > -150) add_hiss(sound, hiss_db, 5);
    for (auto& sample : sound) sample = std::clamp(sample, -1.0F, 1.0F);
    return sound;
}

}  // namespace compline::tests
