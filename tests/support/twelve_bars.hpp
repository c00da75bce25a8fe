#pragma once

#include <array>
#include <cstddef>
#include <string>

namespace compline::tests {

/// Twelve chords, a bar each, on roots of their own: no grip of one is right for a neighbour.
inline constexpr const char* twelve_bars =
    "Dm7 | Ab7 | F#m7 | C7 | Bbm7 | E7 | Ebm7 | B7 | Gm7 | Db7 | Am7 | F7";

/// A shell of the chord of one of them, from 1.
inline std::string shell(int bar) {
    constexpr std::array shells{"x5x56x", "4x45xx", "2x22xx", "8x89xx",       "6x66xx", "x7x79x",
                                "x6x67x", "7x78xx", "3x33xx", "9-x-9-10-x-x", "5x55xx", "1x12xx"};
    return shells.at(static_cast<std::size_t>(bar - 1));
}

}  // namespace compline::tests
