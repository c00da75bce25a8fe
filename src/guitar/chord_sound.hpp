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
    ChordSound(const harmony::Palette& palette, const InPlace& place);

    [[nodiscard]] Cost cost(const Notes& notes) const;

    // What cost() is the sum of.

    using Degrees = std::bitset<12>;  ///< above the root
    [[nodiscard]] Degrees heard(const Notes& notes) const;
    /// Of the tones, whatever their octaves.
    [[nodiscard]] Cost cost_of_tones(const Degrees& heard) const;
    /// Of how they lie.
    [[nodiscard]] Cost cost_of_lie(const Notes& notes, const Degrees& heard) const;

  private:
    [[nodiscard]] std::size_t above_root(int note) const {
        return static_cast<std::size_t>((note + 12 - root_) % 12);
    }
    [[nodiscard]] Degrees above_root(const harmony::PitchClasses& tones) const;
    [[nodiscard]] Cost tone_cost(const Degrees& heard) const;
    [[nodiscard]] Cost unwritten_cost(const Degrees& heard) const;
    [[nodiscard]] Cost name_cost(const Degrees& heard) const;
    [[nodiscard]] Cost spread_cost(const Notes& notes, const Degrees& heard) const;
    [[nodiscard]] Cost interval_cost(const Notes& notes) const;
    [[nodiscard]] Cost outer_cost(const Notes& notes) const;
    /// A written one.
    [[nodiscard]] bool is_alteration(int note) const;

    int root_;
    int bass_;
    InPlace place_;
    Degrees written_;           ///< above the root: what the chart asks for
    Degrees tensions_;          ///< of these: what must not be left out
    bool any_tension_ = false;  ///< one of them is enough (alt)
    Degrees thirds_;            ///< what tells its kind: third, or the fourth or second of a sus
    Degrees sevenths_;          ///< or sixths; none: a triad
    Degrees key_;
    Degrees point_;
    std::array<Cost, 12> unwritten_{};  ///< what each tone costs that the chart does not ask for
    bool plain_fifth_ = false;
    bool flat_nine_ = false;
    bool major_seventh_ = false;
    bool sixth_ = false;
    bool diminished_ = false;
};

}  // namespace compline::guitar
