#pragma once

#include <compline/chart/way.hpp>
#include <compline/roadmap/ladder.hpp>
#include <compline/roadmap/who_plays.hpp>
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

/// Those lay out, beside whom the rule leaves out, or are back, as they were asked to play.
struct LaysOut {
    WhoPlays who;
    bool out = true;
    bool operator==(const LaysOut&) const = default;
};

/// This is played, from its beginning; what was left of the way before is not. Times through are
/// counted on.
struct NewWay {
    chart::Way way;
    bool operator==(const NewWay&) const = default;
};

/// Nothing is played until it goes on: for now the bar before is the last.
struct Paused {
    bool operator==(const Paused&) const = default;
};

/// How long a pause was, once that is known, and how it goes on: that bar, from which on it was
/// paused, was a wait of so many quarter notes, and from the next one on a way is played. Nobody
/// plays in the wait, but it ends with a bar counted in, where it is long enough for one.
struct Waited {
    int beats = 4;  ///< 1 to longest_wait
    chart::Way way;
    bool operator==(const Waited&) const = default;
};

/// Nothing is played any more: the bar before is the last.
struct Stopped {
    bool operator==(const Stopped&) const = default;
};

struct Decision {
    std::int64_t from_bar = 1;  ///< in order of playing, from 1
    std::variant<NewTempo, LaysOut, NewWay, Paused, Waited, Stopped, LadderStep> what;
    bool operator==(const Decision&) const = default;
};

/// Bars that decisions may lie ahead: more than a day holds at 400 bpm.
inline constexpr std::int64_t furthest_decision = 200'000;

inline constexpr int longest_wait = 100'000;  ///< quarter notes: four hours at 400 bpm

}  // namespace compline::roadmap
