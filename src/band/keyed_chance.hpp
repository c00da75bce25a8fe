#pragma once

#include <cassert>
#include <cstdint>

namespace compline::band {

/// A number that looks like chance and is the same on every machine: SplitMix64's mixing function
/// (Steele, Lea, Flood, "Fast splittable pseudorandom number generators", 2014). Wishes are looked
/// up by their place in the line and not drawn in turn, so none depends on what was asked before.
[[nodiscard]] constexpr std::uint64_t mixed(std::uint64_t x) {
    x += 0x9E3779B97F4A7C15ULL;
    x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9ULL;
    x = (x ^ (x >> 27)) * 0x94D049BB133111EBULL;
    return x ^ (x >> 31);
}

class KeyedChance {
  public:
    constexpr explicit KeyedChance(std::uint64_t key) : key_(mixed(key)) {}

    /// Another chance for each thing decided.
    [[nodiscard]] constexpr KeyedChance of(std::uint64_t what) const {
        return KeyedChance(key_ ^ what);
    }

    /// 0 to count - 1; count: 1 to some thousands.
    [[nodiscard]] constexpr int below(int count) const {
        assert(count >= 1);
        return static_cast<int>((key_ >> 16) % static_cast<std::uint64_t>(count));
    }

  private:
    std::uint64_t key_;
};

}  // namespace compline::band
