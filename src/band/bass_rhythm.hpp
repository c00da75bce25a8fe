#pragma once

#include "bass_changes.hpp"
#include "keyed_chance.hpp"

#include <compline/band/bass_bar.hpp>
#include <compline/time/meter.hpp>

#include <cstddef>
#include <vector>

namespace compline::band {

/// The bar is walked through.
[[nodiscard]] bool walks(const BassBar& bar);

/// What a note is there for.
enum class Role {
    start,            ///< a chord starts: its bass note
    root,             ///< its bass note again
    downbeat,         ///< of a walking bar whose chord goes on, or before a rest
    strong,           ///< the middle of a walking bar
    weak,             ///< its other beats
    approach,         ///< a weak beat that leads into the chord that starts next
    strong_approach,  ///< the same on a strong beat
    fifth,            ///< of two-feel and bossa
    half,             ///< the second half of a bar in two, before a chord that starts
    root_or_fifth,    ///< a bar in one, or half of one, whose chord goes on
    lead,             ///< the last eighth of a bossa group: ahead of what comes
    anticipation,     ///< a kick ahead of the beat: the next chord's bass note
    home,             ///< the very last
};

struct BassPlace {
    time::Ticks at;
    time::Ticks until;  ///< as written
    Role role = Role::root;
    std::size_t change = 0;
    std::size_t bar = 0;
    bool kick = false;
    bool starts = false;  ///< a chord starts here
    bool again = false;   ///< where it does not walk the note before may well be struck again
    bool on_beat = true;
    time::Ticks in_bar = {};

    /// The bass note is settled before the line is.
    [[nodiscard]] bool is_given() const { return starts || kick || role == Role::home; }
};

/// Where the bass plays, in order, and why: see bass.hpp. chances: one a bar. ends: nothing
/// follows.
[[nodiscard]] std::vector<BassPlace> places_of(const std::vector<BassBar>& bars,
                                               const std::vector<ChordToPlay>& changes,
                                               const std::vector<KeyedChance>& chances, bool ends);

}  // namespace compline::band
