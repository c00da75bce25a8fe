#include <compline/practice/round_trip.hpp>
#include <compline/simulate/chance.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace compline::practice {

using time::Frames;
using time::SampleRate;

namespace {

constexpr time::Seconds click_length{0.004};
// Hum and its harmonics are below the lowest; at low rates both are lower, so that a cycle has five
// frames at least, and the top of a peak lies between frames that show it.
constexpr double lowest_hz = 1000;
constexpr double highest_hz = 8000;
constexpr double lowest_of_rate = 0.05;
constexpr double highest_of_rate = 0.2;

void check_range(const char* what, double value, double least, double most) {
    if (value >= least && value <= most) return;
    throw std::invalid_argument(
        fmt::format("click train: {} is {}, not from {} to {}", what, value, least, most));
}

void check(const ClickTrainSettings& settings) {
    constexpr double longest_s = 10;
    check_range("clicks", settings.clicks, 3, 1000);
    check_range("level_db", settings.level_db, -60, -3);
    check_range("first", settings.first.count(), 0, longest_s);
    check_range("least_apart", settings.least_apart.count(),
                (ClickTrain::listened_for + click_length).count(), longest_s);
    check_range("most_apart", settings.most_apart.count(), settings.least_apart.count(), longest_s);
}

/// A tone that rises evenly from the lowest to the highest frequency, soft at both ends (Hann): it
/// is like itself, moved, at no other frame (-30 dB beside its peak).
std::vector<float> chirp(SampleRate rate, double level_db) {
    const auto frames = static_cast<std::size_t>(time::nearest_frame(click_length, rate).count());
    const double length = click_length.count();
    const double lowest = std::min(lowest_hz, lowest_of_rate * rate.hz());
    const double sweep = (std::min(highest_hz, highest_of_rate * rate.hz()) - lowest) / length;
    std::vector<float> samples;
    float peak = 0;
    for (std::size_t i = 0; i < frames; ++i) {
        const double t = (static_cast<double>(i) + 0.5) / rate.hz();
        const double swell = 0.5 - 0.5 * std::cos(2 * std::numbers::pi * t / length);
        const double turns = (lowest + 0.5 * sweep * t) * t;
        samples.push_back(static_cast<float>(swell * std::sin(2 * std::numbers::pi * turns)));
        peak = std::max(peak, std::fabs(samples.back()));
    }
    const auto gain = static_cast<float>(std::pow(10, level_db / 20)) / peak;
    for (auto& sample : samples) sample *= gain;
    return samples;
}

}  // namespace

ClickTrain::ClickTrain(SampleRate rate, const ClickTrainSettings& settings) : rate_(rate) {
    check(settings);
    waveform_ = chirp(rate, settings.level_db);
    simulate::Chance chance(settings.seed);
    const double least = settings.least_apart.count();
    const double room = settings.most_apart.count() - least;
    time::Seconds at = settings.first;
    for (int i = 0; i < settings.clicks; ++i) {
        clicks_.push_back(time::nearest_frame(at, rate));
        at += time::Seconds(least + room * chance.uniform());
    }
    const auto click = static_cast<std::int64_t>(waveform_.size());
    length_ = clicks_.back() + time::nearest_frame(listened_for, rate) + Frames(2 * click);
}

void ClickTrain::write(Frames first, std::span<float> block) const noexcept {
    std::fill(block.begin(), block.end(), 0.0F);
    const auto click = static_cast<std::int64_t>(waveform_.size());
    const Frames end = first + Frames(static_cast<std::int64_t>(block.size()));
    auto next = std::partition_point(clicks_.begin(), clicks_.end(),
                                     [&](Frames at) { return at + Frames(click) <= first; });
    for (; next != clicks_.end() && *next < end; ++next) {
        const std::int64_t from = std::max(next->count(), first.count());
        const std::int64_t to = std::min(next->count() + click, end.count());
        std::copy_n(waveform_.begin() + (from - next->count()), to - from,
                    block.begin() + (from - first.count()));
    }
}

std::vector<float> ClickTrain::whole() const {
    std::vector<float> samples(static_cast<std::size_t>(length_.count()));
    write(Frames(0), samples);
    return samples;
}

}  // namespace compline::practice
