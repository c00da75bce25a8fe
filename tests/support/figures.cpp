#include "figures.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

namespace compline::tests {

namespace {

using Complex = std::complex<double>;

/// Cooley and Tukey's transform, in place; the size is a power of two.
void transform(std::vector<Complex>& values) {
    const std::size_t size = values.size();
    for (std::size_t i = 1, j = 0; i < size; ++i) {
        std::size_t bit = size >> 1;
        for (; (j & bit) != 0; bit >>= 1) j ^= bit;
        j ^= bit;
        if (i < j) std::swap(values[i], values[j]);
    }
    for (std::size_t length = 2; length <= size; length <<= 1) {
        const std::size_t half = length / 2;
        std::vector<Complex> turns(half);
        for (std::size_t k = 0; k < half; ++k) {
            turns[k] = std::polar(
                1.0, -6.283185307179586 * static_cast<double>(k) / static_cast<double>(length));
        }
        for (std::size_t first = 0; first < size; first += length) {
            for (std::size_t k = 0; k < half; ++k) {
                const Complex odd = values[first + half + k] * turns[k];
                values[first + half + k] = values[first + k] - odd;
                values[first + k] += odd;
            }
        }
    }
}

std::size_t frame_of(time::Seconds at, time::SampleRate rate, std::size_t size) {
    const auto frame = static_cast<std::size_t>(time::nearest_frame(at, rate).count());
    return std::min(frame, size);
}

double level_of(const std::vector<float>& samples, std::size_t from, std::size_t to) {
    double sum = 0;
    for (std::size_t i = from; i < to; ++i) sum += static_cast<double>(samples[i]) * samples[i];
    return to > from ? std::sqrt(sum / static_cast<double>(to - from)) : 0.0;
}

/// The level over windows of a length, one at every half of it.
struct Levels {
    std::vector<double> of;
    double loudest = 0;
    double hop_s;

    Levels(const std::vector<float>& samples, time::SampleRate rate, time::Seconds window)
        : hop_s(window.count() / 2) {
        for (double at = 0;; at += hop_s) {
            const auto from = frame_of(time::Seconds(at), rate, samples.size());
            if (from == samples.size()) break;
            const auto to = frame_of(time::Seconds(at) + window, rate, samples.size());
            of.push_back(level_of(samples, from, to));
            loudest = std::max(loudest, of.back());
        }
    }
};

}  // namespace

Spectrum::Spectrum(const std::vector<float>& samples, time::SampleRate rate) {
    std::size_t size = 1;
    while (size < samples.size()) size *= 2;
    std::vector<Complex> values(samples.begin(), samples.end());
    values.resize(size);
    transform(values);
    for (std::size_t i = 0; i <= size / 2; ++i) power_.push_back(std::norm(values[i]));
    bin_hz_ = rate.hz() / static_cast<double>(size);
}

double Spectrum::centroid() const {
    double sum = 0;
    double weighted = 0;
    for (std::size_t i = 0; i < power_.size(); ++i) {
        sum += power_[i];
        weighted += power_[i] * bin_hz_ * static_cast<double>(i);
    }
    return weighted / sum;
}

double Spectrum::share(double from_hz, double to_hz) const {
    double sum = 0;
    double inside = 0;
    for (std::size_t i = 0; i < power_.size(); ++i) {
        const double hz = bin_hz_ * static_cast<double>(i);
        sum += power_[i];
        if (hz >= from_hz && hz < to_hz) inside += power_[i];
    }
    return inside / sum;
}

double level(const std::vector<float>& samples, time::SampleRate rate, time::Seconds from,
             time::Seconds to) {
    return level_of(samples, frame_of(from, rate, samples.size()),
                    frame_of(to, rate, samples.size()));
}

double level(const std::vector<float>& samples) { return level_of(samples, 0, samples.size()); }

double peak(const std::vector<float>& samples, time::SampleRate rate, time::Seconds from,
            time::Seconds to) {
    float loudest = 0;
    const auto end = frame_of(to, rate, samples.size());
    for (auto i = frame_of(from, rate, samples.size()); i < end; ++i) {
        loudest = std::max(loudest, std::fabs(samples[i]));
    }
    return loudest;
}

double peak(const std::vector<float>& samples) {
    float loudest = 0;
    for (const float s : samples) loudest = std::max(loudest, std::fabs(s));
    return loudest;
}

double decibels(double ratio) { return 20 * std::log10(ratio); }

time::Seconds attack(const std::vector<float>& samples, time::SampleRate rate) {
    const Levels levels(samples, rate, time::Seconds(0.001));
    std::size_t i = 0;
    while (levels.of[i] < levels.loudest * std::sqrt(0.5)) ++i;
    return time::Seconds(static_cast<double>(i) * levels.hop_s);
}

time::Seconds falls_by(double decibels_below, const std::vector<float>& samples,
                       time::SampleRate rate) {
    const Levels levels(samples, rate, time::Seconds(0.020));
    const double limit = levels.loudest * std::pow(10.0, -decibels_below / 20);
    std::size_t i = levels.of.size();
    while (i > 0 && levels.of[i - 1] <= limit) --i;
    return time::Seconds(static_cast<double>(i) * levels.hop_s);
}

}  // namespace compline::tests
