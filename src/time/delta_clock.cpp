#include <compline/time/delta_clock.hpp>

#include <cassert>
#include <cmath>

namespace compline::time {

namespace {

constexpr std::int64_t last_half_minute = 30'000'000'000;  // ns
constexpr std::int64_t messages = 32;                      // two or three strums and their releases

}  // namespace

DeltaClock::DeltaClock() : latest_(last_half_minute, messages) {}

Instant DeltaClock::at(Instant arrival, Seconds delta) {
    // Whole nanoseconds: the kernel's stamps are whole microseconds, so their sum stays exact.
    if (!latest_.empty()) {
        assert(delta >= Seconds(0));
        sum_ += std::llround(delta.count() * 1e9);
    }
    latest_.push(arrival.nanoseconds(), arrival.nanoseconds() - sum_);
    return Instant(latest_.minimum() + sum_);
}

}  // namespace compline::time
