#pragma once

#include <compline/harmony/chord.hpp>
#include <compline/harmony/pitch.hpp>
#include <compline/time/meter.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::assess {

/// What the faults of a habit have in common.
enum class HabitKind {
    place,         ///< a bar and a beat, over all times through
    transition,    ///< from one chord to another, wherever it stands
    wide_move,     ///< the hand goes more than four frets
    after_fill,    ///< single notes or double-stops come right before
    into_section,  ///< the first change of a section, from another one
    quality,       ///< chords of one quality, or one of its tones is meant: see tone
    tone,          ///< one tone of a quality
    string,        ///< foreign tones on one string
    off_beats,     ///< strums on off-beats, against those on beats
    wait,          ///< a place that comes in later in the bar
    left_out,      ///< a place that is not played
};
[[nodiscard]] std::string_view name_of(HabitKind kind);
inline constexpr int habit_kinds = 11;

/// What goes wrong, in two of three cases at least; mixed: now this, now that. Where both the time
/// and the tones of the same changes go wrong there is a habit of each.
enum class HabitFault {
    late,
    early,
    missed,
    wrong,       ///< foreign tones
    incomplete,  ///< missing tones
    wait,        ///< in later in the bar: of a wait, and of what the hand has to do or a quality
    left_out,
    rushed,   ///< off-beats before their time
    dragged,  ///< off-beats after it
    mixed,
};
[[nodiscard]] std::string_view name_of(HabitFault fault);
inline constexpr int habit_faults = 10;

/// Faults that have something in common: three at least, and twice as often as elsewhere. Of what
/// follows below `changes`, a habit has what its kind speaks of.
struct Habit {
    HabitKind kind = HabitKind::place;
    HabitFault fault = HabitFault::mixed;
    int cases = 0;
    /// So many could have been cases: changes that were struck or should have been; strums between
    /// beats; changes with that string.
    int of = 0;
    /// Mean lateness of the cases that came late, early or in wait, + is late; of off-beats how far
    /// they lie behind where the feel has them, seen from the player's own beats.
    std::optional<double> mean_ms;
    /// What its cases cost together: of a habit of time their time, of one of tones their tones. A
    /// place that is left out counts as a wait, and a strum off the off-beat as the part of one.
    double cost = 0;
    std::vector<std::size_t> changes;  ///< the cases: indexes into Assessment::changes, ascending

    int bar = 0;  ///< place, wait, left_out; 0 for what waits in more places than one
    time::BeatOfBar beat;
    std::string section;  ///< of that bar; of into_section where it is always the same one
    std::optional<harmony::Chord> from;  ///< of a place and a transition; none: comes after nothing
    std::optional<harmony::Chord> to;    ///< ... the chord that comes in
    std::string quality;  ///< of quality and tone: "half-diminished", "dominant ♭9"
    std::optional<harmony::Degree> tone;  ///< of tone
    std::optional<int> string;            ///< of string
};

}  // namespace compline::assess
