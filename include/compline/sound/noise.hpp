#pragma once

#include <cstdint>

namespace compline::sound {

/// White noise, the same on every machine: xorshift64* (Vigna, "An experimental exploration of
/// Marsaglia's xorshift generators, scrambled", 2016). The distributions of the standard library
/// differ from one implementation to another and are not used.
class Noise {
  public:
    /// seed: not 0.
    constexpr explicit Noise(std::uint64_t seed) : state_(seed) {}

    /// Even between -1 and 1.
    constexpr double next() {
        state_ ^= state_ >> 12;
        state_ ^= state_ << 25;
        state_ ^= state_ >> 27;
        const std::uint64_t scrambled = state_ * 0x2545F4914F6CDD1DULL;
        return static_cast<double>(static_cast<std::int64_t>(scrambled) >> 11) * 0x1p-52;
    }

  private:
    std::uint64_t state_;
};

}  // namespace compline::sound
