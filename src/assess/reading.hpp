#pragma once

#include "grid.hpp"
#include "landing.hpp"
#include "player.hpp"
#include "shifts.hpp"
#include "sounding.hpp"
#include "target.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace compline::assess {

// Reading: what each strum of a take was meant for, all readings of the take weighed together. It
// says nothing of whether that was well done; judging does.
//
// The state after a strum is the chord in hand and where in the form the player believes to be; the
// evidence of each strum is a sum of logarithms (nats): how well its tones say a chord (Fit), how
// near it lies to a place where this player lets chords in, how rare what it would have to be is.
// The best way through all strums is found by dynamic programming.
//
// 2026-11-29: the whole take at once. One strum after the other, each special case took its strum
// from another. And twice, since what is likely depends on the player, whom only a reading shows
// (own_time.hpp). Deliberately simple: a fit is a sum over tones, entries are a table of ten
// half-beats, a lost player is moved by a few fixed distances; velocity and the hand's way count
// for nothing, and nothing is trained.

struct Reading {
    std::vector<SoundingStrum> strums;  ///< in order; a broken chord is one
    /// The change whose chord was in hand with each strum; none before the first.
    std::vector<std::optional<std::size_t>> in_hand;
    std::vector<std::optional<Landing>> landings;  ///< of each change
    /// Of a change at which the player was elsewhere in the form: the change that was meant.
    std::vector<std::optional<std::size_t>> meant;
    /// So many changes stand whatever is played after this take.
    std::size_t settled = 0;
};

/// strums: in order of time. end: when listening ended.
[[nodiscard]] Reading read(const Targets& targets, const Shifts& shifts,
                           std::vector<SoundingStrum> strums, const Grid& grid,
                           const Player& player, time::Seconds end);

}  // namespace compline::assess
