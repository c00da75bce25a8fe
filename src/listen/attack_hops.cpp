#include "attack_hops.hpp"

#include <algorithm>
#include <cmath>

namespace compline::listen {

namespace {

constexpr double bright_hz = 1500;
constexpr double brightest_hz = 7000;
constexpr double low_hz = 700;
constexpr double steady_hz = 30;  // what is no sound at all: a steady push of the input
constexpr double of_rate = 0.35;  // at low rates the bright part begins lower

double within(double hz, time::SampleRate rate) { return std::min(hz, of_rate * rate.hz()); }

}  // namespace

AttackHops::AttackHops(time::SampleRate rate)
    : length_(std::max<std::int64_t>(8, rate.hz() / 1000)),
      bright_(sound::Filter::high_pass(within(bright_hz, rate), rate.hz())),
      brightest_(sound::Filter::high_pass(within(brightest_hz, rate), rate.hz())),
      low_(sound::Filter::low_pass(within(low_hz, rate), rate.hz())),
      steady_(sound::Filter::high_pass(steady_hz, rate.hz())),
      bright_sizes_(static_cast<std::size_t>(kept * length_)),
      brightest_sizes_(bright_sizes_.size()) {}

bool AttackHops::add(float sample) {
    const double whole = steady_.next(std::isfinite(sample) ? sample : 0.0F);
    const double bright = bright_.next(whole);
    const double brightest = brightest_.next(whole);
    const double low = low_.next(whole);
    sum_.bright += bright * bright;
    sum_.brightest += brightest * brightest;
    sum_.low += low * low;
    sum_.whole += whole * whole;
    sum_.peak = std::max(sum_.peak, static_cast<float>(std::fabs(whole)));
    const auto place = static_cast<std::size_t>(frames_) % bright_sizes_.size();
    bright_sizes_[place] = static_cast<float>(std::fabs(bright));
    brightest_sizes_[place] = static_cast<float>(std::fabs(brightest));
    ++frames_;
    if (++in_hop_ < length_) return false;
    const auto n = static_cast<double>(length_);
    hops_[static_cast<std::size_t>(full_ % kept)] = {sum_.bright / n, sum_.brightest / n,
                                                     sum_.low / n, sum_.whole / n, sum_.peak};
    sum_ = {};
    in_hop_ = 0;
    ++full_;
    return true;
}

float AttackHops::largest_size(Bright part, std::int64_t from, std::int64_t to) const {
    float largest = 0;
    for (std::int64_t frame = std::max<std::int64_t>(0, from); frame < to; ++frame) {
        largest = std::max(largest, size_at(part, frame));
    }
    return largest;
}

}  // namespace compline::listen
