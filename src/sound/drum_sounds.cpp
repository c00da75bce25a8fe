#include "finish.hpp"
#include "partials.hpp"

#include <compline/sound/noise.hpp>
#include <compline/sound/one_shots.hpp>

#include <cmath>
#include <cstddef>

namespace compline::sound {

namespace {

// Peaks at full velocity, chosen together with the gains of band/place.cpp so that the band, all
// its sounds at once, stays below -1 dBFS.
constexpr double ride_peak = 0.50;
constexpr double hihat_peak = 0.50;
constexpr double kick_peak = 0.60;
constexpr double stick_peak = 0.45;

/// What two multiplications and a sum make of noise: the part above `hz`, or below it.
class OnePole {
  public:
    OnePole(double hz, time::SampleRate rate)
        : share_(1.0 - std::exp(-6.283185307179586 * hz / rate.hz())) {}
    double low(double sample) { return state_ += share_ * (sample - state_); }
    double high(double sample) { return sample - low(sample); }

  private:
    double share_;
    double state_ = 0;
};

struct Burst {
    double amplitude;
    double decay_s;  // to 1/e
    double from_hz;
    double to_hz;
    double swell_s = 0;  // 0: at once
};

void add_noise(std::vector<double>& sound, const Burst& burst, Noise noise, time::SampleRate rate) {
    OnePole high(burst.from_hz, rate);
    OnePole higher(burst.from_hz, rate);
    OnePole low(burst.to_hz, rate);
    const double shrink = std::exp(-1.0 / (burst.decay_s * rate.hz()));
    const double swell = burst.swell_s > 0 ? std::exp(-1.0 / (burst.swell_s * rate.hz())) : 0.0;
    double envelope = burst.amplitude;
    double still_low = 1.0;
    for (std::size_t i = 0; i < sound.size() && envelope > burst.amplitude * 1e-5; ++i) {
        still_low *= swell;
        sound[i] += envelope * (1.0 - still_low) * low.low(higher.high(high.high(noise.next())));
        envelope *= shrink;
    }
}

/// Partials strewn over a range as a cymbal's are: dense, in no ratio to each other, the lower
/// ones ringing longer.
std::vector<Partial> cymbal_partials(int count, double from_hz, double to_hz, double loudest_hz,
                                     double longest_s, Noise noise) {
    std::vector<Partial> partials;
    const double octaves = std::log2(to_hz / from_hz);
    for (int i = 0; i < count; ++i) {
        const double place = (i + 0.5 + 0.45 * noise.next()) / count;
        const double hz = from_hz * std::exp2(octaves * place);
        const double away = std::log2(hz / loudest_hz);
        partials.push_back({hz, std::exp(-0.5 * away * away), longest_s * std::sqrt(from_hz / hz),
                            0.5 * noise.next()});
    }
    return partials;
}

}  // namespace

Samples make_ride(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(1.5), rate);
    add_partials(sound, cymbal_partials(64, 420, 11000, 3800, 0.55, Noise(11)), rate);
    add_noise(sound, {10.0, 0.28, 4500, 13000, 0.010}, Noise(12), rate);  // the wash
    add_noise(sound, {26.0, 0.0022, 2500, 16000}, Noise(13), rate);       // the stick's tip
    return finish(sound, ride_peak, time::Seconds(0.25), rate);
}

Samples make_hihat_foot(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(0.12), rate);
    add_partials(sound, cymbal_partials(16, 900, 9000, 4500, 0.030, Noise(21)), rate);
    add_noise(sound, {30.0, 0.014, 3500, 12000}, Noise(22), rate);
    return finish(sound, hihat_peak, time::Seconds(0.02), rate);
}

Samples make_kick(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(0.35), rate);
    add_partials(sound, {{58, 1.0, 0.075, 0}, {88, 0.5, 0.030, 0}, {141, 0.25, 0.015, 0}}, rate);
    add_noise(sound, {0.5, 0.006, 60, 900}, Noise(31), rate);  // felt on the skin
    return finish(sound, kick_peak, time::Seconds(0.05), rate);
}

Samples make_stick(time::SampleRate rate) {
    auto sound = canvas(time::Seconds(0.10), rate);
    add_partials(sound, {{1850, 1.0, 0.012, 0.2}, {2730, 0.7, 0.009, 0.2}, {4380, 0.4, 0.006, 0.2}},
                 rate);
    add_noise(sound, {1.5, 0.002, 2000, 12000}, Noise(41), rate);
    return finish(sound, stick_peak, time::Seconds(0.02), rate);
}

}  // namespace compline::sound
