#pragma once

#include <compline/band/band.hpp>
#include <compline/sound/bank.hpp>
#include <compline/sound/cue.hpp>
#include <compline/time/units.hpp>

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace compline::band {

/// Those of the band that can be told apart by ear: what can be made louder or quieter, moved
/// across the bandstand, or laid behind the beat.
enum class Chair { ride, hats, kick, snare, count, bass, melody, guitar };
inline constexpr int chair_count = 8;
[[nodiscard]] std::string_view name_of(Chair chair);
[[nodiscard]] Chair chair_of(Drum drum);

/// How loud, where and how the band stands.
struct Stage {
    struct Seat {
        float gain = 1.0F;         ///< 0 and up
        std::optional<float> pan;  ///< -1 left to 1 right; none: its usual place
        time::Seconds behind{0};   ///< + lays back, at most 20 ms either way
        bool operator==(const Seat&) const = default;
    };
    std::array<Seat, chair_count> seats{};
    float width = 1.0F;   ///< 0: all at one point, 1: as on a bandstand
    float centre = 0.0F;  ///< where that point is, -1 left to 1 right

    [[nodiscard]] Seat& seat(Chair chair) { return seats[static_cast<std::size_t>(chair)]; }
    [[nodiscard]] const Seat& seat(Chair chair) const {
        return seats[static_cast<std::size_t>(chair)];
    }
    bool operator==(const Stage&) const = default;
};

inline constexpr time::Seconds furthest_behind{0.020};

/// "bass=+8,ride=-4": milliseconds behind the beat, -20 to 20, by chair; "drums" is all of them but
/// the count. Fixed: no jitter, so that the reference stays one. The reference is the beat,
/// wherever the band stands: lateness counts from there (2026-11-25). Throws text::BadInput.
void read_placement(std::string_view text, Stage& stage);

/// "drums=-6,bass=0,count=3": decibels, -60 to 12, or "off". Throws text::BadInput.
void read_mix(std::string_view text, Stage& stage);

/// "bass=-0.5,drums=0.5": -1 left to 1 right. Throws text::BadInput.
void read_pan(std::string_view text, Stage& stage);

/// "bass +8, ride -4", as read_placement() reads it; empty when all are on the beat.
[[nodiscard]] std::string placement_in_words(const Stage& stage);

/// The part in time and sound: a cue for each stroke and note on the frame nearest to its exact
/// time, sorted by frame. Each is computed from its own position, so nothing adds up over a long
/// evening. The notes of bass, melody and guitar are damped at their written end, by what
/// was known when they began: a tempo decided while one rings leaves it alone.
///
/// zero: the frame of bar 1 beat 1, that is of time 0.
/// begins: the frame on which all begins, from which the band comes in softly (see soft_start);
/// what is laid ahead of it comes on it. None: the band plays already.
[[nodiscard]] std::vector<sound::Cue> place(const Part& part, const roadmap::RoadMap& map,
                                            time::SampleRate rate, time::Frames zero,
                                            const Stage& stage = {},
                                            std::optional<time::Frames> begins = std::nullopt);

/// Whether the guitar's sounds must be made for these players: a comping guitar plays on them, and
/// a melody does.
[[nodiscard]] sound::Bank::Guitar guitar_sounds_for(const Players& players);

/// A band that starts at once can hurt in headphones that are set too loud: it comes in 12 dB down
/// and is at its level after this long.
inline constexpr time::Seconds soft_start{1.5};

/// The gain of a velocity: (velocity/127) squared, the concave curve of the DLS Level 1
/// specification (MIDI Manufacturers Association, 1997).
[[nodiscard]] float gain_of(int velocity);

}  // namespace compline::band
