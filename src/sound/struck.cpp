#include "struck.hpp"

#include "filter.hpp"
#include "finish.hpp"
#include "resample.hpp"

#include <cmath>
#include <utility>

namespace compline::sound {

namespace {

constexpr double inaudible = 1e-5;  // of where it began
constexpr double made_at_hz = made_at.hz();

/// The two halves of a maximally flat filter of the fourth order (Butterworth's).
constexpr double flat_first = 0.5411961001461970;
constexpr double flat_second = 1.3065629648763764;

/// Noise even between -1 and 1 has a third of the power of full scale, spread evenly to half the
/// rate.
double to_level(double from_hz, double to_hz) {
    return std::sqrt(3.0 * 0.5 * made_at_hz / (to_hz - from_hz));
}

class NoiseBand {
  public:
    NoiseBand(double from_hz, double to_hz, Noise noise)
        : noise_(noise),
          scale_(to_level(from_hz, to_hz)),
          above_(Filter::high_pass(from_hz, made_at_hz)),
          below_(Filter::low_pass(to_hz, made_at_hz, flat_first)),
          further_below_(Filter::low_pass(to_hz, made_at_hz, flat_second)) {}

    double next() { return further_below_.next(below_.next(above_.next(scale_ * noise_.next()))); }

  private:
    Noise noise_;
    double scale_;
    Filter above_;
    Filter below_;
    Filter further_below_;
};

/// A high pass of the first order at 15 Hz: it has a zero at 0 Hz, so that all samples of a sound
/// that dies away add up to nothing.
void take_out_steady(std::vector<double>& sound) {
    const double back = shrink_of(made_at_hz / (6.283185307179586 * 15.0));
    double last_in = 0;
    double last_out = 0;
    for (double& sample : sound) {
        last_out = sample - last_in + back * last_out;
        last_in = sample;
        sample = last_out;
    }
}

}  // namespace

std::vector<double> noise_between(double from_hz, double to_hz, std::size_t length, Noise noise) {
    NoiseBand band(from_hz, to_hz, noise);
    std::vector<double> sound(length);
    for (double& sample : sound) sample = band.next();
    return sound;
}

void add_burst(std::vector<double>& sound, const Burst& burst, Noise noise) {
    NoiseBand band(burst.from_hz, burst.to_hz, noise);
    const double shrink = shrink_of(burst.decay_s * made_at_hz);
    const double swell = burst.swell_s > 0 ? shrink_of(burst.swell_s * made_at_hz) : 0.0;
    double fading = burst.amplitude;
    double to_come = 1.0;
    for (std::size_t i = 0; i < sound.size() && fading > burst.amplitude * inaudible; ++i) {
        to_come *= swell;
        sound[i] += fading * (1.0 - to_come) * band.next();
        fading *= shrink;
    }
}

void add_skin(std::vector<double>& sound, const Skin& skin) {
    const double shrink = shrink_of(skin.decay_s * made_at_hz);
    const double settle = shrink_of(skin.settle_s * made_at_hz);
    double fading = skin.amplitude;
    double sharp = skin.sharp;
    double turn = skin.turn;
    for (std::size_t i = 0; i < sound.size() && fading > skin.amplitude * inaudible; ++i) {
        turn += skin.hz * (1.0 + sharp) / made_at_hz;
        sound[i] += fading * sine(turn);
        fading *= shrink;
        sharp *= settle;
    }
}

Samples struck(std::vector<double> sound, double peak, time::Seconds fade, time::SampleRate rate) {
    take_out_steady(sound);
    return in_floats(resampled(finish(std::move(sound), peak, fade, made_at), made_at, rate));
}

}  // namespace compline::sound
