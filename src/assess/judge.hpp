#pragma once

#include "grid.hpp"
#include "reading.hpp"
#include "target.hpp"

#include <compline/assess/assessment.hpp>

#include <vector>

namespace compline::assess {

/// Everything one verdict may look at.
struct Evidence {
    const Targets& targets;
    const Reading& reading;
    const std::vector<listen::Note>& notes;
    const Grid& grid;
    const OwnTime& own;
    const guitar::Fretboard& fretboard;
    listen::HeardBy heard_by = listen::HeardBy::midi;  ///< by sound `notes` are none

    [[nodiscard]] bool knows_tones() const { return heard_by == listen::HeardBy::midi; }
    [[nodiscard]] const std::vector<SoundingStrum>& strums() const { return reading.strums; }
    /// When the change is due, and when its chord ends.
    [[nodiscard]] time::Seconds due(std::size_t i) const { return grid.time_of(targets.due[i].at); }
    [[nodiscard]] const Pace& pace(std::size_t i) const { return grid.pace_at(targets.due[i].at); }
    [[nodiscard]] time::Seconds end(std::size_t i) const { return grid.time_of(targets.end(i)); }
    /// The first strum at or after `t`.
    [[nodiscard]] std::size_t first_strum_from(time::Seconds t) const;
    /// What may be played on change i: on the chord that was meant, where the player was elsewhere.
    [[nodiscard]] const harmony::Palette& palette(std::size_t i) const {
        return targets.palette(reading.meant[i].value_or(i));
    }
};

/// When a landed change came: sets verdict, lateness, beats_in and spread.
void judge_landing(const Evidence& evidence, std::size_t i, Change& change);

/// The grip that rings into the change is right there, and what landed it later is that grip again.
[[nodiscard]] bool was_held(const Evidence& evidence, std::size_t i);

/// Why a change has no landing: held, laid out or missed. Where it may be left out the chord before
/// goes on and is held.
void judge_absence(const Evidence& evidence, std::size_t i, Change& change);

/// The tones of a landing, and of the strums of the same chord after it. What these were read as
/// goes into `read_as`, one a strum.
void judge_tones(const Evidence& evidence, std::size_t i, Change& change,
                 std::vector<ReadAs>& read_as);

/// By when the defining tones must have come: half the chord's length, at most two beats.
[[nodiscard]] time::Seconds tones_due_by(const Target& target, const Grid& grid);

}  // namespace compline::assess
