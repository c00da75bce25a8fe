#pragma once

#include <compline/time/units.hpp>

#include <cstdint>
#include <variant>

namespace compline::roadmap {

// What was decided while the music went on, by a player, a ladder or a pedal, and from which bar on
// it counts. A road map is what was asked and the list of decisions since; nothing of them is ever
// worked out again (2026-11-30).

/// Another tempo.
struct NewTempo {
    time::Bpm tempo{120};
    bool operator==(const NewTempo&) const = default;
};

/// The whole band leaves the player alone, or is back, as it was asked to play.
struct LeftAlone {
    bool alone = true;
    bool operator==(const LeftAlone&) const = default;
};

/// Nothing is played from that bar on: the bar before it is the last.
struct Stopped {
    bool operator==(const Stopped&) const = default;
};

struct Decision {
    std::int64_t from_bar = 1;  ///< in order of playing, from 1
    std::variant<NewTempo, LeftAlone, Stopped> what;
    bool operator==(const Decision&) const = default;
};

/// Bars that decisions may lie ahead: more than a day holds at 400 bpm.
inline constexpr std::int64_t furthest_decision = 200'000;

}  // namespace compline::roadmap
