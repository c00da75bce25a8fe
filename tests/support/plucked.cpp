#include "plucked.hpp"

#include <compline/simulate/chance.hpp>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>
#include <optional>

namespace compline::tests {

namespace {

double ratio_of(double db) { return std::pow(10, db / 20); }

/// y = (1 - a) x + a y: how much of a frequency it lets through.
double let_through(double a, double turns) {
    const std::complex<double> delay = std::polar(1.0, -2 * std::numbers::pi * turns);
    return std::abs((1 - a) / (1.0 - a * delay));
}

/// The filter that lets so much of a frequency through.
double filter_of(double turns, double share) {
    double low = 0;
    double high = 0.999;
    for (int i = 0; i < 50; ++i) {
        const double a = 0.5 * (low + high);
        (let_through(a, turns) > share ? low : high) = a;
    }
    return low;
}

/// One pluck, from its first sample on.
std::vector<float> one(const Pluck& pluck, time::SampleRate rate, std::size_t frames,
                       simulate::Chance& chance) {
    const auto period = static_cast<std::size_t>(std::lround(rate.hz() / pluck.note.hz()));
    const double cycle_s = static_cast<double>(period) / rate.hz();
    const auto kept = [&](double seconds) { return std::pow(10, -3 * cycle_s / seconds); };
    const double whole = kept(6.0);                                        // gone in 6 s
    const double dull = filter_of(2000.0 / rate.hz(), kept(0.8) / whole);  // above 2 kHz in 0.8 s
    const double pick_hz = 1500 + 5000 * ratio_of(pluck.level_db);
    const double pick = std::exp(-2 * std::numbers::pi * pick_hz / rate.hz());
    std::vector<double> noise(period);
    double mean = 0;
    for (auto& value : noise) {
        value = 2 * chance.uniform() - 1;
        mean += value / static_cast<double>(period);
    }
    std::vector<double> wave(frames);
    double burst = 0;
    double round = 0;
    double largest = 0;
    for (std::size_t i = 0; i < frames; ++i) {
        burst = pick * burst + (1 - pick) * (i < period ? noise[i] - mean : 0);
        round = dull * round + (1 - dull) * (i < period ? 0 : whole * wave[i - period]);
        wave[i] = burst + round;
        largest = std::max(largest, std::fabs(wave[i]));
    }
    std::vector<float> samples(frames);
    for (std::size_t i = 0; i < frames; ++i) {
        samples[i] = static_cast<float>(wave[i] / largest * ratio_of(pluck.level_db));
    }
    return samples;
}

/// Led down to nothing over the last frames.
void fade(std::vector<float>& samples, std::size_t over) {
    over = std::min(over, samples.size());
    for (std::size_t i = 0; i < over; ++i) {
        const double part = static_cast<double>(i + 1) / static_cast<double>(over);
        samples[samples.size() - over + i] *= static_cast<float>(1 - part);
    }
}

}  // namespace

std::vector<float> plucked(const std::vector<Pluck>& plucks, time::SampleRate rate,
                           time::Seconds length, std::uint64_t seed) {
    simulate::Chance chance(seed);
    const auto frames = [&](time::Seconds at) {
        return static_cast<std::size_t>(time::nearest_frame(at, rate).count());
    };
    std::vector<float> sound(frames(length));
    for (std::size_t i = 0; i < plucks.size(); ++i) {
        const auto& pluck = plucks[i];
        std::optional<time::Seconds> again;
        for (std::size_t j = i + 1; j < plucks.size() && !again; ++j) {
            if (plucks[j].string == pluck.string) again = plucks[j].at;
        }
        const bool damped = !again || pluck.at + pluck.rings < *again;
        const std::size_t from = frames(pluck.at);
        const std::size_t end =
            std::min(damped ? frames(pluck.at + pluck.rings) : frames(*again), sound.size());
        if (end <= from) continue;
        auto samples = one(pluck, rate, end - from, chance);
        fade(samples, frames(time::Seconds(damped ? 0.030 : 0.005)));
        for (std::size_t k = 0; k < samples.size(); ++k) sound[from + k] += samples[k];
    }
    return sound;
}

void add_hum(std::vector<float>& sound, time::SampleRate rate, double hz, double level_db) {
    constexpr int harmonics = 10;
    double all = 0;
    for (int k = 1; k <= harmonics; ++k) all += 1.0 / k;
    const auto turn = std::polar(1.0, 2 * std::numbers::pi * hz / rate.hz());
    std::complex<double> tone = std::polar(1.0, 0.7);
    for (auto& sample : sound) {
        double sum = 0;
        std::complex<double> harmonic = tone;
        for (int k = 1; k <= harmonics; ++k) {
            sum += harmonic.imag() / k;
            harmonic *= tone;
        }
        sample += static_cast<float>(ratio_of(level_db) * sum / all);
        tone *= turn;
    }
}

void add_hiss(std::vector<float>& sound, double level_db, std::uint64_t seed) {
    simulate::Chance chance(seed);
    const double size = std::sqrt(3.0) * ratio_of(level_db);  // of even noise
    for (auto& sample : sound) sample += static_cast<float>(size * (2 * chance.uniform() - 1));
}

void add_squeak(std::vector<float>& sound, time::SampleRate rate, time::Seconds at, double level_db,
                std::uint64_t seed) {
    simulate::Chance chance(seed);
    const auto from = static_cast<std::size_t>(time::nearest_frame(at, rate).count());
    const auto frames = static_cast<std::size_t>(0.080 * rate.hz());
    double turns = 0;
    double rough = 0;
    for (std::size_t i = 0; i < frames && from + i < sound.size(); ++i) {
        const double part = static_cast<double>(i) / static_cast<double>(frames);
        rough += 0.1 * (2 * chance.uniform() - 1 - rough);
        turns += (1500 + 1500 * part) * (1 + rough) / rate.hz();
        const double swell = std::sin(std::numbers::pi * part);
        sound[from + i] += static_cast<float>(ratio_of(level_db) * swell * swell *
                                              std::sin(2 * std::numbers::pi * turns));
    }
}

}  // namespace compline::tests
