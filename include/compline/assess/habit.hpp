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

/// What goes wrong, in most of the cases at least; mixed: now this, now that.
enum class HabitFault {
    late,
    early,
    missed,
    wrong,       ///< foreign tones
    incomplete,  ///< missing tones
    wait,
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
    int of = 0;                        ///< changes (of off_beats: strums) that it could have struck
    std::optional<double> mean_ms;     ///< lateness of the late, early or waited ones; + is late
    double cost = 0;                   ///< of its cases together
    std::vector<std::size_t> changes;  ///< the cases: indexes into Assessment::changes, ascending

    int bar = 0;           ///< place, wait, left_out (0 for a wait or a transition anywhere)
    time::BeatOfBar beat;  ///< ... from 1
    std::string section;   ///< ... and into_section, where it is always the same one
    std::optional<harmony::Chord> from;  ///< place, transition; none: also before N.C.
    std::optional<harmony::Chord> to;
    std::string quality;                  ///< quality, tone: "half-diminished", "dominant ♭9"
    std::optional<harmony::Degree> tone;  ///< tone
    std::optional<int> string;            ///< string
};

}  // namespace compline::assess
