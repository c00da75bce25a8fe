#pragma once

#include "chord_place.hpp"
#include "grips.hpp"

#include <compline/simulate/chance.hpp>
#include <compline/simulate/chorus.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::simulate {

inline constexpr time::Ticks half_beat{480};

/// A chord change as it is meant to be played.
struct PlannedChange : ChordPlace {
    guitar::Shape grip;    ///< a right voicing
    guitar::Shape struck;  ///< as it is struck when it lands: spoilt where that is the deed
    std::optional<Deed> deed;
    std::string words;
    time::Ticks entry;  ///< where it is struck first, from its place in the chart
    time::Seconds off;  ///< how far from there
    /// Of a late change: the old chord rings wrongly until it comes.
    bool held_over = false;
    /// The old grip would do for the new chord: struck shortly before the change, it might be taken
    /// for it, rightly. So it is not struck there.
    bool quiet_before = false;
    std::optional<harmony::MidiNote> foreign;
    std::optional<harmony::Degree> left_out;
};

/// How exact the player is, and what the tempo leaves room for.
struct Hand {
    time::Groove groove;
    time::Seconds tolerance;  ///< of the judge
    time::Seconds sd;         ///< of the player's time

    Hand(const time::Groove& groove, time::Seconds scatter);
    [[nodiscard]] time::Seconds beat() const { return groove.timeline.tempo().beat(); }
    /// From a beat to its swung off-beat, and on to the next beat.
    [[nodiscard]] time::Seconds long_note() const { return beat() - short_note(); }
    [[nodiscard]] time::Seconds short_note() const {
        return groove.swing.short_note(groove.timeline.tempo());
    }
    /// The farthest the player is ever off where nothing is wrong: within the tolerance.
    [[nodiscard]] time::Seconds widest() const { return sd * Chance::widest; }
    [[nodiscard]] time::Seconds scattered(Chance& chance) const { return sd * chance.scatter(); }
};

/// Chooses grips for all changes of a form, and plants deeds.
[[nodiscard]] std::vector<PlannedChange> plan_chorus(const chart::Form& form, const Hand& hand,
                                                     bool deeds, Chance& chance);

}  // namespace compline::simulate
