#include "click_arrivals.hpp"

#include "../assess/median.hpp"
#include "matched_filter.hpp"

#include <algorithm>
#include <cmath>

namespace compline::practice {

namespace {

/// Of one click against the noise: in half a second of noise not one place in a million reaches it.
constexpr double stands_out = 8;
constexpr double nothing_db = -100;  // of full scale, where there is no noise at all
/// What is nearer to an arrival is a part of it, as is what fits the click by this share of itself.
constexpr time::Seconds one_arrival{0.001};
constexpr double like_itself = 0.15;
constexpr time::Seconds latest{2.0};

double ratio_of(double db) { return std::pow(10, db / 20); }

std::size_t index_of(time::Frames at) { return static_cast<std::size_t>(at.count()); }

/// From one index to before another.
std::size_t largest(std::span<const double> values, std::size_t from, std::size_t to) {
    std::size_t best = from;
    for (std::size_t i = from; i < std::min(to, values.size()); ++i) {
        if (std::fabs(values[i]) > std::fabs(values[best])) best = i;
    }
    return best;
}

}  // namespace

ClickArrivals::ClickArrivals(const ClickTrain& train, std::span<const float> recorded)
    : train_(train), sound_(recorded.begin(), recorded.end()) {
    for (auto& sample : sound_) {
        if (!std::isfinite(sample)) sample = 0;
    }
    values_ = matched(sound_, train.waveform());
    noise_ = noise_of(values_);
    const double written = *std::max_element(train.waveform().begin(), train.waveform().end());
    least_ = std::max(stands_out * noise_, ratio_of(nothing_db) / written);
    together_ = together();
    find();
}

std::size_t ClickArrivals::frames(time::Seconds seconds) const {
    return index_of(time::nearest_frame(seconds, train_.rate()));
}

/// What fits so long after each click, on average over all of them: noise, a band and other clicks,
/// which come at other places behind each, sink.
std::vector<double> ClickArrivals::together() const {
    std::vector<double> mean(frames(latest) + 1, 0.0);
    for (const auto click : train_.clicks()) {
        const std::size_t from = index_of(click);
        for (std::size_t i = 0; i < mean.size() && from + i < values_.size(); ++i) {
            mean[i] += values_[from + i] / static_cast<double>(train_.clicks().size());
        }
    }
    return mean;
}

/// Where all clicks agree, when it is there half as loud as on average; else the loudest.
void ClickArrivals::find() {
    const std::size_t common = largest(together_, 0, listened() + 1);
    const std::size_t before = std::min<std::size_t>(common, 3);
    const double enough = std::max(least_, 0.5 * std::fabs(together_[common]));
    for (const auto click : train_.clicks()) {
        const std::size_t from = index_of(click);
        if (from + listened() >= values_.size()) continue;
        auto best = largest(values_, from + common - before, from + common + 4);
        if (std::fabs(values_[best]) < enough) best = largest(values_, from, from + listened() + 1);
        if (std::fabs(values_[best]) >= least_) take(from, best);
    }
}

void ClickArrivals::take(std::size_t click, std::size_t at) {
    const auto top = top_of(values_, at);
    ClickArrival arrival{top.at - static_cast<double>(click), top.size, 0};
    for (std::size_t i = at; i < at + train_.waveform().size(); ++i) {
        arrival.largest_sample = std::max(arrival.largest_sample, std::fabs(sound_[i]));
    }
    arrivals_.push_back(arrival);
}

/// Noise sinks by the root of the number of clicks.
double ClickArrivals::least_together() const {
    return least_ / std::sqrt(static_cast<double>(train_.clicks().size()));
}

std::optional<double> ClickArrivals::agreed(std::size_t from, std::size_t to) const {
    const double size = std::fabs(together_[largest(together_, from, to)]);
    if (size <= least_together()) return std::nullopt;
    return size;
}

std::optional<double> ClickArrivals::agreed_early() const { return agreed(0, listened() + 1); }

std::optional<double> ClickArrivals::agreed_late() const {
    return agreed(listened() + 1, together_.size());
}

/// What fits so long after each click, as a rule (the median): what is behind one click alone is no
/// echo.
std::vector<double> ClickArrivals::as_a_rule() const {
    std::vector<double> rule(listened() + 1);
    std::vector<double> values;
    for (std::size_t i = 0; i < rule.size(); ++i) {
        values.clear();
        for (const auto click : train_.clicks()) {
            const std::size_t at = index_of(click) + i;
            if (at < values_.size()) values.push_back(values_[at]);
        }
        if (!values.empty()) rule[i] = assess::median(values);
    }
    return rule;
}

/// How far from its place the click still fits itself.
std::size_t ClickArrivals::own_width() const {
    std::vector<float> twice(train_.waveform());
    twice.resize(2 * twice.size());
    const auto own = matched(twice, train_.waveform());
    std::size_t width = frames(one_arrival);
    for (std::size_t i = width; i < own.size(); ++i) {
        if (std::fabs(own[i]) > like_itself) width = i + 1;
    }
    return width;
}

std::optional<SecondArrival> ClickArrivals::second(double first) const {
    const auto rule = as_a_rule();
    const std::size_t last = rule.size() - 1;
    const auto at = std::min(static_cast<std::size_t>(std::lround(std::max(0.0, first))), last);
    const std::size_t apart = own_width();
    std::size_t second = at;
    const double itself = std::fabs(rule[at]);
    double size = 0;
    const auto look = [&](std::size_t from, std::size_t to) {
        const std::size_t best = largest(rule, from, to);
        if (std::fabs(rule[best]) <= size) return;
        second = best;
        size = std::fabs(rule[best]);
    };
    if (at + apart <= last) look(at + apart, rule.size());
    if (at > apart) look(0, at - apart);
    const bool loud = size > itself * ratio_of(-echo_within_db) && size > least_together();
    if (!loud || itself == 0) return std::nullopt;
    return SecondArrival{static_cast<double>(second) - first, 20 * std::log10(size / itself)};
}

}  // namespace compline::practice
