#include "seventh_chords.hpp"

#include <array>
#include <bitset>

namespace compline::guitar {

namespace {

constexpr unsigned all_pitches = 12;

constexpr unsigned above(int third, int fifth, int seventh) {
    return 1U | 1U << third | 1U << fifth | 1U << seventh;
}

constexpr std::array<unsigned, 6> kinds = {above(4, 7, 11), above(4, 7, 10), above(3, 7, 10),
                                           above(3, 6, 10), above(3, 6, 9),  above(3, 7, 11)};

const std::bitset<1U << all_pitches>& all() {
    static const auto table = [] {
        std::bitset<1U << all_pitches> chords;
        for (const unsigned kind : kinds) {
            for (unsigned up = 0; up < all_pitches; ++up) {
                chords.set((kind << up | kind >> (all_pitches - up)) & 0xFFFU);
            }
        }
        return chords;
    }();
    return table;
}

}  // namespace

bool is_seventh_chord(std::uint16_t tones) { return all()[tones & 0xFFFU]; }

}  // namespace compline::guitar
