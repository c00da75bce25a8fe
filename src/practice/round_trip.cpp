#include "../assess/median.hpp"
#include "click_arrivals.hpp"

#include <algorithm>
#include <cmath>

namespace compline::practice {

namespace {

constexpr double softest_db = -60;    // largest sample: below it the input is hardly used
constexpr double full_scale = 0.999;  // this or more is taken for overloaded
constexpr double heard_share = 0.75;  // of the clicks
constexpr double clipped_share = 0.25;
constexpr int fewest_heard = 3;
constexpr double near_noise_db = 30;  // clicks that are lost in between are lost to it

double db_of(double ratio) { return 20 * std::log10(std::max(ratio, 1e-10)); }

double median_of(const std::vector<ClickArrival>& arrivals, double (*value)(const ClickArrival&)) {
    std::vector<double> values;
    values.reserve(arrivals.size());
    for (const auto& arrival : arrivals) values.push_back(value(arrival));
    return assess::median(std::move(values));
}

void add_spread(const std::vector<ClickArrival>& arrivals, RoundTrip& found) {
    double sum = 0;
    double squares = 0;
    for (const auto& arrival : arrivals) {
        const double off = arrival.after - found.frames;
        found.farthest_frames = std::max(found.farthest_frames, std::fabs(off));
        sum += off;
        squares += off * off;
    }
    const auto n = static_cast<double>(arrivals.size());
    if (n > 1) found.sd_frames = std::sqrt(std::max(0.0, squares - sum * sum / n) / (n - 1));
}

RoundTrip figures_of(const ClickTrain& train, const ClickArrivals& arrivals) {
    RoundTrip found;
    found.rate = train.rate();
    found.clicks = static_cast<int>(train.clicks().size());
    found.heard = static_cast<int>(arrivals.all().size());
    const double written = *std::max_element(train.waveform().begin(), train.waveform().end());
    found.level_db = db_of(arrivals.agreed_early().value_or(0) * written);
    if (arrivals.all().empty()) return found;
    const auto& all = arrivals.all();
    found.frames = median_of(all, [](const auto& one) { return one.after; });
    found.level_db =
        db_of(median_of(all, [](const auto& one) -> double { return one.largest_sample; }));
    const double size = median_of(all, [](const auto& one) { return one.size; });
    found.above_noise_db = db_of(size / std::max(arrivals.noise(), 1e-9));
    add_spread(all, found);
    return found;
}

bool is_clipped(const std::vector<ClickArrival>& arrivals) {
    const auto clipped = std::count_if(arrivals.begin(), arrivals.end(), [](const auto& one) {
        return one.largest_sample >= full_scale;
    });
    return static_cast<double>(clipped) > clipped_share * static_cast<double>(arrivals.size());
}

std::optional<WireFault> fault_of(const ClickArrivals& arrivals, const RoundTrip& found) {
    const auto early = arrivals.agreed_early();
    const auto late = arrivals.agreed_late();
    if (late && *late > 2 * early.value_or(0)) return WireFault::too_late;
    if (found.heard < fewest_heard) return early ? WireFault::too_soft : WireFault::nothing_heard;
    if (is_clipped(arrivals.all())) return WireFault::clipped;
    if (found.farthest_frames > steady_within) return WireFault::unsteady;
    if (found.level_db < softest_db) return WireFault::too_soft;
    if (found.heard >= heard_share * found.clicks) return std::nullopt;
    return found.above_noise_db < near_noise_db ? WireFault::too_soft : WireFault::unsteady;
}

}  // namespace

RoundTrip measure_round_trip(const ClickTrain& train, std::span<const float> recorded) {
    const ClickArrivals arrivals(train, recorded);
    auto found = figures_of(train, arrivals);
    found.fault = fault_of(arrivals, found);
    if (found.fault) return found;
    found.second = arrivals.second(found.frames);
    if (found.second) found.fault = WireFault::echoes;
    return found;
}

}  // namespace compline::practice
