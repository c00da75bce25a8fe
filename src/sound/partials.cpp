#include "partials.hpp"

#include "exact.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

namespace compline::sound {

namespace {

constexpr double inaudible_after = 10.36;  // decay times to -90 dB

/// Eight partials side by side, each as the recurrence of a ringing resonator,
/// y[n] = 2 r cos(w) y[n-1] - r^2 y[n-2]: no sine a sample, and the eight chains of arithmetic keep
/// the processor busy. In double precision the error stays under 1e-10 for the sounds made here.
class Resonators {
  public:
    static constexpr std::size_t lanes = 8;

    void set(std::size_t lane, const Partial& partial, double rate) {
        const double step = partial.hz / rate;
        const double shrink = shrink_of(partial.decay_s * rate);
        first_[lane] = 2.0 * shrink * cosine(step);
        second_[lane] = shrink * shrink;
        last_[lane] = partial.amplitude * sine(partial.turn);
        before_[lane] = partial.amplitude * sine(partial.turn - step) / shrink;
    }

    double next() {
        std::array<double, lanes> now;
        for (std::size_t i = 0; i < lanes; ++i) {
            now[i] = first_[i] * last_[i] - second_[i] * before_[i];
        }
        before_ = last_;
        last_ = now;
        return ((now[0] + now[1]) + (now[2] + now[3])) + ((now[4] + now[5]) + (now[6] + now[7]));
    }

  private:
    std::array<double, lanes> first_{};
    std::array<double, lanes> second_{};
    std::array<double, lanes> last_{};
    std::array<double, lanes> before_{};
};

}  // namespace

void add_partials(std::vector<double>& sound, const std::vector<Partial>& partials,
                  time::SampleRate rate) {
    std::vector<Partial> heard;
    for (const auto& partial : partials) {
        if (partial.hz < 0.45 * rate.hz()) heard.push_back(partial);
    }
    // Those that last alike side by side, so that each group can stop early.
    std::stable_sort(heard.begin(), heard.end(),
                     [](const Partial& a, const Partial& b) { return a.decay_s > b.decay_s; });
    for (std::size_t first = 0; first < heard.size(); first += Resonators::lanes) {
        Resonators resonators;
        const std::size_t last = std::min(first + Resonators::lanes, heard.size());
        for (std::size_t i = first; i < last; ++i) resonators.set(i - first, heard[i], rate.hz());
        const double longest = heard[first].decay_s * inaudible_after * rate.hz();
        const std::size_t length = std::min(sound.size(), static_cast<std::size_t>(longest));
        for (std::size_t i = 0; i < length; ++i) sound[i] += resonators.next();
    }
}

}  // namespace compline::sound
