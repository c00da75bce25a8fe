#pragma once

#include <compline/guitar/effort.hpp>
#include <compline/guitar/fretboard.hpp>

#include <algorithm>
#include <optional>

namespace compline::guitar {

/// Where the hand should lie, in frets from the capo: near the fret that is wished for, else around
/// the middle of the neck, which a capo does not move.
struct Home {
    int low = 1;
    int high = 1;

    [[nodiscard]] int frets_outside(int fret) const {
        return std::max({low - fret, fret - high, 0});
    }
};

[[nodiscard]] inline Home home_of(const Fretboard& fretboard, std::optional<int> near_fret) {
    if (near_fret) return {*near_fret, *near_fret};
    const auto from_capo = [&](int fret) { return std::max(1, fret - fretboard.capo()); };
    return {from_capo(weight::home_low), from_capo(weight::home_high)};
}

}  // namespace compline::guitar
