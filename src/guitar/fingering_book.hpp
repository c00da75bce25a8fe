#pragma once

#include "packed_grip.hpp"

#include <compline/guitar/hand.hpp>

#include <array>
#include <cstdint>
#include <unordered_map>
#include <vector>

namespace compline::guitar {

/// A fingering of a shape that is this much less comfortable than its best is none.
inline constexpr Cost clumsiest = 80;

/// The ways to finger a shape, found once for all places on the neck where they are the same, and
/// without those that nobody would choose.
class FingeringBook {
  public:
    FingeringBook(const Fretboard& fretboard, Hands hands);

    struct Fingered {
        std::array<Finger, most_strings> fingers{};
        PackedGrip packed;  ///< but for its voices
        int index = 0;      ///< the fret under it, be it behind the nut; 0 with nothing fretted
        Cost form = 0;      ///< form_cost()

        /// So many frets up the neck, or down.
        [[nodiscard]] PackedGrip at(int frets) const;
    };
    struct Fingerings {
        int lowest = 0;  ///< where they were found
        std::vector<Fingered> all;
    };
    /// `lowest`: the lowest fret that is held, 0 for none; the shape is no wider than hands span
    /// (asserted). They may have been found elsewhere on the neck: see Fingered::at().
    [[nodiscard]] const Fingerings& fingerings(const Shape& shape, int lowest);

  private:
    [[nodiscard]] int alike(const Shape& shape, int lowest) const;
    [[nodiscard]] std::uint32_t key_of(const Shape& shape, int lowest) const;
    [[nodiscard]] Fingerings finger(const Shape& shape, int lowest) const;

    const Fretboard& fretboard_;
    Hands hands_;
    std::unordered_map<std::uint32_t, Fingerings> entries_;
};

}  // namespace compline::guitar
