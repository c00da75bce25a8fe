#include "../assess/median.hpp"
#include "matched_filter.hpp"

#include <compline/practice/round_trip.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace compline::practice {

namespace {

/// Of clicks that come back one by one, against the noise: of half a second of noise alone not one
/// in a million reaches it.
constexpr double stands_out = 8;
constexpr double softest_db = -60;    // largest sample: below it the input is hardly used
constexpr double full_scale = 0.999;  // this or more is taken for overloaded
constexpr double heard_share = 0.75;  // of the clicks
constexpr double clipped_share = 0.25;
constexpr int fewest_heard = 3;
/// What is nearer to an arrival is a part of it, as is what fits the click by this share of itself.
constexpr time::Seconds one_arrival{0.001};
constexpr double like_itself = 0.15;
constexpr time::Seconds latest{2.0};

double db_of(double ratio) { return 20 * std::log10(std::max(ratio, 1e-10)); }

struct Arrival {
    double after = 0;  // frames behind its click
    double size = 0;   // against the click as it was written
    float largest_sample = 0;
};

/// One train against one recording.
class Comparing {
  public:
    Comparing(const ClickTrain& train, std::span<const float> recorded)
        : train_(train), sound_(recorded.begin(), recorded.end()) {
        for (auto& sample : sound_) {
            if (!std::isfinite(sample)) sample = 0;
        }
        values_ = matched(sound_, train.waveform());
        noise_ = noise_of(values_);
        const double written = *std::max_element(train.waveform().begin(), train.waveform().end());
        constexpr double nothing_db = -100;
        least_ = std::max(stands_out * noise_, std::pow(10, nothing_db / 20) / written);
    }

    RoundTrip result() {
        together_ = together(frames(latest));
        find_arrivals();
        RoundTrip found = figures();
        found.fault = fault_of(found);
        if (found.fault) return found;
        found.second = second_arrival(found.frames);
        if (found.second) found.fault = WireFault::echoes;
        return found;
    }

  private:
    [[nodiscard]] std::size_t frames(time::Seconds seconds) const {
        return static_cast<std::size_t>(time::nearest_frame(seconds, train_.rate()).count());
    }
    [[nodiscard]] std::size_t listened() const { return frames(ClickTrain::listened_for); }
    [[nodiscard]] static std::size_t index_of(time::Frames at) {
        return static_cast<std::size_t>(at.count());
    }

    /// What fits so long after each click, on average over all of them: noise, a band and other
    /// clicks, which come at other places behind each, sink.
    [[nodiscard]] std::vector<double> together(std::size_t longest) const {
        std::vector<double> mean(longest + 1, 0.0);
        for (const auto click : train_.clicks()) {
            const std::size_t from = index_of(click);
            for (std::size_t i = 0; i <= longest && from + i < values_.size(); ++i) {
                mean[i] += values_[from + i] / static_cast<double>(train_.clicks().size());
            }
        }
        return mean;
    }

    [[nodiscard]] static std::size_t largest(std::span<const double> values, std::size_t from,
                                             std::size_t to) {
        std::size_t best = from;
        for (std::size_t i = from; i < std::min(to, values.size()); ++i) {
            if (std::fabs(values[i]) > std::fabs(values[best])) best = i;
        }
        return best;
    }

    /// Where all clicks agree, when it is there half as loud as on average; else the loudest.
    void find_arrivals() {
        const std::size_t common = largest(together_, 0, listened() + 1);
        const std::size_t before = std::min<std::size_t>(common, 3);
        const double enough = std::max(least_, 0.5 * std::fabs(together_[common]));
        for (const auto click : train_.clicks()) {
            const std::size_t from = index_of(click);
            if (from + listened() >= values_.size()) continue;
            auto best = largest(values_, from + common - before, from + common + 4);
            if (std::fabs(values_[best]) < enough) {
                best = largest(values_, from, from + listened() + 1);
            }
            if (std::fabs(values_[best]) >= least_) take_arrival(from, best);
        }
    }

    void take_arrival(std::size_t click, std::size_t at) {
        const auto top = top_of(values_, at);
        Arrival arrival{top.at - static_cast<double>(click), top.size, 0};
        for (std::size_t i = at; i < at + train_.waveform().size(); ++i) {
            arrival.largest_sample = std::max(arrival.largest_sample, std::fabs(sound_[i]));
        }
        arrivals_.push_back(arrival);
    }

    template <typename Value>
    [[nodiscard]] double median_of(Value value) const {
        std::vector<double> values;
        for (const auto& arrival : arrivals_) values.push_back(value(arrival));
        return assess::median(std::move(values));
    }

    [[nodiscard]] RoundTrip figures() const {
        RoundTrip found;
        found.rate = train_.rate();
        found.clicks = static_cast<int>(train_.clicks().size());
        found.heard = static_cast<int>(arrivals_.size());
        if (arrivals_.empty()) return found;
        found.frames = median_of([](const Arrival& one) { return one.after; });
        found.level_db = db_of(median_of([](const Arrival& one) { return one.largest_sample; }));
        const double size = median_of([](const Arrival& one) { return one.size; });
        found.above_noise_db = db_of(size / std::max(noise_, 1e-9));
        add_spread(found);
        return found;
    }

    void add_spread(RoundTrip& found) const {
        double sum = 0;
        double squares = 0;
        for (const auto& arrival : arrivals_) {
            const double off = arrival.after - found.frames;
            found.farthest_frames = std::max(found.farthest_frames, std::fabs(off));
            sum += off;
            squares += off * off;
        }
        const auto n = static_cast<double>(arrivals_.size());
        if (n > 1) found.sd_frames = std::sqrt(std::max(0.0, squares - sum * sum / n) / (n - 1));
    }

    /// What fits so long after each click, as a rule (the median): what is behind one click alone
    /// is no echo.
    [[nodiscard]] std::vector<double> as_a_rule() const {
        std::vector<double> rule(listened() + 1);
        std::vector<double> values;
        for (std::size_t i = 0; i < rule.size(); ++i) {
            values.clear();
            for (const auto click : train_.clicks()) {
                const std::size_t at = index_of(click) + i;
                if (at < values_.size()) values.push_back(values_[at]);
            }
            rule[i] = assess::median(values);
        }
        return rule;
    }

    /// How far from its place the click still fits itself.
    [[nodiscard]] std::size_t own_width() const {
        const auto click = std::span(train_.waveform());
        std::vector<float> twice(2 * click.size());
        std::copy(click.begin(), click.end(), twice.begin());
        const auto own = matched(twice, click);
        std::size_t width = frames(one_arrival);
        for (std::size_t i = width; i < own.size(); ++i) {
            if (std::fabs(own[i]) > like_itself) width = i + 1;
        }
        return width;
    }

    /// The loudest that comes back at another delay, if it is loud enough to be an echo.
    [[nodiscard]] std::optional<SecondArrival> second_arrival(double first) const {
        const auto rule = as_a_rule();
        const auto at = static_cast<std::size_t>(std::lround(std::max(0.0, first)));
        const std::size_t apart = own_width();
        const std::size_t end = rule.size();
        std::size_t second = largest(rule, std::min(at + apart, end - 1), end);
        const std::size_t before = largest(rule, 0, at > apart ? at - apart : 0);
        if (at > apart && std::fabs(rule[before]) > std::fabs(rule[second])) second = before;
        const double db = db_of(std::fabs(rule[second]) / std::max(std::fabs(rule[at]), 1e-9));
        if (db < -echo_within_db || std::fabs(rule[second]) < least_together()) return {};
        return SecondArrival{static_cast<double>(second) - first, db};
    }

    /// Noise sinks by the root of the number of clicks.
    [[nodiscard]] double least_together() const {
        return least_ / std::sqrt(static_cast<double>(train_.clicks().size()));
    }

    [[nodiscard]] bool comes_late() const {
        const std::size_t late = largest(together_, listened() + 1, together_.size());
        const std::size_t early = largest(together_, 0, listened() + 1);
        return std::fabs(together_[late]) > 2 * std::fabs(together_[early]) &&
               std::fabs(together_[late]) > least_together();
    }

    [[nodiscard]] std::optional<WireFault> fault_of(const RoundTrip& found) const {
        const std::size_t common = largest(together_, 0, listened() + 1);
        if (comes_late()) return WireFault::too_late;
        if (found.heard < fewest_heard) {
            const bool soft = std::fabs(together_[common]) > least_together();
            return soft ? WireFault::too_soft : WireFault::nothing_heard;
        }
        const auto clipped = std::count_if(arrivals_.begin(), arrivals_.end(), [](const auto& one) {
            return one.largest_sample >= full_scale;
        });
        if (static_cast<double>(clipped) > clipped_share * found.heard) return WireFault::clipped;
        if (found.farthest_frames > steady_within) return WireFault::unsteady;
        if (found.level_db < softest_db) return WireFault::too_soft;
        if (found.heard < heard_share * found.clicks) {
            return found.above_noise_db < 2 * db_of(stands_out) ? WireFault::too_soft
                                                                : WireFault::unsteady;
        }
        return std::nullopt;
    }

    const ClickTrain& train_;
    std::vector<float> sound_;
    std::vector<double> values_;
    std::vector<double> together_;
    std::vector<Arrival> arrivals_;
    double noise_ = 0;
    double least_ = 0;
};

}  // namespace

RoundTrip measure_round_trip(const ClickTrain& train, std::span<const float> recorded) {
    return Comparing(train, recorded).result();
}

}  // namespace compline::practice
