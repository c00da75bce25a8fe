#pragma once

#include <compline/guitar/effort.hpp>
#include <compline/harmony/palette.hpp>

#include <array>
#include <bitset>
#include <cstddef>

namespace compline::guitar {

/// The notes of a voicing, from low to high.
struct Notes {
    std::array<int, most_strings> numbers{};
    std::size_t count = 0;

    void add(int number);
    [[nodiscard]] int lowest() const { return numbers[0]; }
    [[nodiscard]] int highest() const { return numbers[count - 1]; }
};

/// A chord as sound_cost() asks for it: made once, asked for many voicings.
class ChordSound {
  public:
    ChordSound(const harmony::Palette& palette, LowRoot low_root);

    [[nodiscard]] Cost cost(const Notes& notes) const;

  private:
    using Degrees = std::bitset<12>;  ///< above the root

    [[nodiscard]] std::size_t above_root(int note) const {
        return static_cast<std::size_t>((note + 12 - root_) % 12);
    }
    [[nodiscard]] Cost tone_cost(const Notes& notes) const;
    [[nodiscard]] Cost interval_cost(const Notes& notes) const;
    [[nodiscard]] Cost outer_cost(const Notes& notes) const;  ///< lowest and highest

    int root_;  ///< pitch classes
    int bass_;
    LowRoot low_root_;
    Degrees written_;   ///< what the symbol says, the slash bass too
    Degrees tensions_;  ///< what it adds to its seventh chord
    bool plain_fifth_ = false;
    bool flat_nine_ = false;
    bool major_seventh_ = false;
};

}  // namespace compline::guitar
