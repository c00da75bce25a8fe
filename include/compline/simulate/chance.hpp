#pragma once

#include <cstdint>

namespace compline::simulate {

/// Seeded chance that gives the same numbers on every machine (the distributions of the standard
/// library do not). SplitMix64: Steele, Lea, Flood, OOPSLA 2014; constants from memory.
class Chance {
  public:
    explicit Chance(std::uint64_t seed) : state_(seed) {}

    std::uint64_t next() {
        state_ += 0x9E3779B97F4A7C15ULL;
        std::uint64_t z = state_;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
        return z ^ (z >> 31);
    }
    /// 0 up to, not including, 1.
    double uniform() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }
    /// 0 to n - 1; n at least 1.
    std::uint64_t below(std::uint64_t n) { return next() % n; }
    /// Around 0 with standard deviation 1, never beyond 3: a sum of twelve uniforms, cut.
    static constexpr double widest = 3;
    double scatter() {
        double sum = -6;
        for (int i = 0; i < 12; ++i) sum += uniform();
        return sum > widest ? widest : sum < -widest ? -widest : sum;
    }

  private:
    std::uint64_t state_;
};

}  // namespace compline::simulate
