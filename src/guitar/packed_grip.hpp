#pragma once

#include "chord_sound.hpp"

#include <compline/guitar/effort.hpp>
#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/grip.hpp>

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <vector>

namespace compline::guitar {

/// The notes of a grip from the top one down, as bytes; of five the lowest is not followed.
using Voices = std::array<std::uint8_t, 4>;

/// What the cost of a move asks of a grip, small enough that millions of pairs can be compared.
struct PackedGrip {
    static constexpr std::size_t fingers = 5;  ///< index to little, thumb
    static constexpr std::size_t thumb = 4;

    std::array<std::uint8_t, fingers> cover{};  ///< which strings, see cover_of(); 0: in the air
    std::array<std::int8_t, fingers> fret{};
    std::array<std::uint16_t, fingers> place{};  ///< cover and fret as one, see place_of()
    std::int8_t hand = 0;      ///< the fret under the index, were it down; 0 with nothing fretted
    std::uint8_t strings = 0;  ///< that sound; bit 0 is string 1
    std::uint64_t form = 0;    ///< equal for grips that are one another moved along the neck
    static constexpr std::uint8_t no_voice = 255;  ///< further from any note than two notes are
    Voices voices{no_voice, no_voice, no_voice, no_voice};
};

/// The place of a finger on a neck of so many frets as a number; 0: in the air. A fret up the neck
/// is one more.
[[nodiscard]] constexpr int place_of(int cover, int fret, int frets) {
    return cover == 0 ? 0 : 1 + (cover - 1) * frets + fret - 1;
}

[[nodiscard]] Voices voices_of(const Notes& notes);

[[nodiscard]] PackedGrip pack(const Fretboard& fretboard, const Grip& grip);

/// reach_cost() of packed grips.
[[nodiscard]] Cost packed_reach(const PackedGrip& from, const PackedGrip& to, const WayIn& way_in);

// comfort_cost() is the sum of these: of how the fingers lie, wherever on the neck, and of where on
// the neck that is (the lowest and the highest fret that are held, 0 for none).
[[nodiscard]] Cost form_cost(const Grip& grip);
[[nodiscard]] Cost neck_cost(int low, int high, int capo);

// The parts that packed_reach() is the sum of; where it costs less, whole_grip_cost() stands in
// place of all but the voices.

/// Of one finger: its cost, and whether it guides the hand.
struct FingerReach {
    Cost cost = 0;
    bool guides = false;
};
[[nodiscard]] FingerReach finger_reach(int from_cover, int from_fret, int to_cover, int to_fret);
[[nodiscard]] Cost whole_grip_cost(int frets, int haste);
[[nodiscard]] Cost shift_cost(int frets, int haste, bool guided);
[[nodiscard]] constexpr Cost string_set_cost(unsigned strings_that_differ) {
    return weight::string_set * std::popcount(strings_that_differ);
}
/// Of the top voice, `semitones` away.
[[nodiscard]] constexpr Cost top_cost(int semitones) {
    return semitones * weight::top_motion +
           std::max(0, semitones - weight::top_third) * weight::top_leap;
}
/// Of a voice below it, as far as their bytes differ: more than 127 where there is only one.
[[nodiscard]] constexpr Cost voice_cost(int apart) {
    return apart > 127 ? 0 : std::max(0, apart - weight::voice_step) * weight::voice_leap;
}
/// What it costs to hold the same notes on the same strings through a change.
[[nodiscard]] inline Cost held_cost(bool news, const Voices& from, const Voices& to,
                                    unsigned strings_that_differ) {
    return news && strings_that_differ == 0 && from == to ? weight::held : 0;
}
/// What it costs besides not to go where the line goes; see weight::line_broken.
[[nodiscard]] Cost line_cost(const Voices& from, const Voices& to, Line line);

/// Strings under a finger as a number: 0 in the air, else from the higher to the lower one.
[[nodiscard]] constexpr int cover_of(int high, int low) {
    return 1 + low * (low - 1) / 2 + (high - 1);
}
/// How many there are on so many strings, the air included.
[[nodiscard]] constexpr int covers_of(int strings) { return 1 + strings * (strings + 1) / 2; }

}  // namespace compline::guitar
