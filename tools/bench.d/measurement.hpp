#pragma once

#include <compline/time/units.hpp>

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace compline::bench {

/// The times of one piece of work done over and over, sorted. The work is the same every time, so
/// what differs between runs is other programs: the fastest run is the work itself, the median is
/// what to expect on the machine as it is now, and between the two lies how busy it is.
class Measurement {
  public:
    /// seconds: one entry a run, in any order, at least one.
    explicit Measurement(std::vector<double> seconds);

    [[nodiscard]] time::Seconds median() const;
    [[nodiscard]] time::Seconds fastest() const { return time::Seconds(seconds_.front()); }
    [[nodiscard]] time::Seconds slowest() const { return time::Seconds(seconds_.back()); }
    [[nodiscard]] std::size_t runs() const { return seconds_.size(); }

  private:
    std::vector<double> seconds_;
};

/// How much patience there is: for figures to quote, or for a look at whether all still works.
enum class Pace { thorough, quick };

/// Runs `work` once to warm up, then until it has taken half a second in all and at least five
/// times (at most a thousand; quick: a twentieth of a second, three times); each run is timed
/// alone, so `work` should take a microsecond or more.
[[nodiscard]] Measurement measure(Pace pace, const std::function<void()>& work);

/// Hands a result to the compiler as used, so that the work that made it is not optimised away.
template <class T>
void keep(const T& result) {
    asm volatile("" : : "g"(&result) : "memory");
}

}  // namespace compline::bench
