#pragma once

#include <compline/chart/form.hpp>
#include <compline/harmony/palette.hpp>

#include <optional>
#include <string>

namespace compline::roadmap {

/// A chord change as the music has it: a chord whose canonical symbol differs from the one before.
/// The first chord counts, and the first after N.C.; a repeat does not.
struct DueChange {
    int time_through = 1;  ///< from 1
    int bar = 1;           ///< number in the form
    time::BeatOfBar beat;  ///< from 1
    std::string section;   ///< rehearsal letter
    bool seam = false;     ///< the seam of a loop, which the tune may not have
    time::Ticks at;        ///< from the first beat of the first time through
    time::Ticks in_form;   ///< where it starts, from bar 1 beat 1
    time::Ticks length;    ///< until the next change, or N.C., or the end
    std::optional<harmony::Chord> from;
    harmony::Chord to;
    harmony::Surroundings around;  ///< what the tune makes of the chord
    bool optional = false;         ///< may be left out, the chord before going on
};

}  // namespace compline::roadmap
