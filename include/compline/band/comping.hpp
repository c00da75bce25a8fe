#pragma once

#include <compline/chart/chart.hpp>
#include <compline/time/meter.hpp>
#include <compline/time/units.hpp>

#include <cstdint>
#include <optional>
#include <vector>

namespace compline::band {

// How a guitar comps in a small group (common practice, no source).
//
// Cells. Two bars are a cell, such as 1 2& | 1 2&, 2 4 | 2 4 or 1 | 1 3&. A phrase of four bars,
// counted in the section, has its cell: it stays, or another answers it; the next phrase has
// another one. Bars of two chords have cells in which each is struck in its half; bars with chords
// elsewhere strike each where it starts. A bossa has the two bars of the cross-stick, and now and
// then variants of them, a ballad long chords on the strong beats.
// Meters. Cells are counted in eighths: 2/2 has those of 4/4, 2/4 half of them, 6/8, 9/8 and 12/8
// their own, on dotted quarters with here and there an eighth before one. Half-time and double-time
// change nothing for the guitar.
// Pushes. About a third of the changes over a bar line are struck on the off-beat before it: the
// whole grip of the chord to come, never a chord of a beat, and the old one is let go. Then 1 is
// not struck again. A ballad pushes nothing, nor does anybody over the seam of a time through: a
// player hears where the top is.
// Air. One bar in eight or so is left empty: one of a single chord, best of one that goes on;
// never the first or last of a time through, never two running, none in a ballad.
// Every other chord is heard, and what follows a rest comes where it starts.
// Touch. Off-beats are louder and shorter than what is on the beat; of that a chord that comes in
// is louder than one that is struck again.
// Kicks of the whole band are played too; one within half a beat before a chord brings it early.
// A bar of kicks has each chord where it starts besides, and nothing is pushed into or out of it.

/// A bar as the guitar sees it.
struct CompBar {
    time::Ticks start;   ///< in the form
    int in_section = 0;  ///< from 0: phrases and cells go by it
    chart::Feel feel = chart::Feel::swing;
    std::vector<chart::Slot> slots;         ///< chords, from the bar line
    std::vector<time::Ticks> kicks;         ///< from the bar line, ascending
    bool lays_out = false;                  ///< nobody comps here
    std::optional<time::Meter> meter = {};  ///< none: the one that comp() is given
};

struct CompStrum {
    time::Ticks at;  ///< from the first bar's beginning
    time::Ticks length;
    time::Ticks in_form;  ///< the position whose chord it plays: on a push the chord to come
    int velocity = 66;
    bool operator==(const CompStrum&) const = default;
};

/// The loudnesses of a strum: struck again, a chord that comes in, an off-beat; and a kick.
inline constexpr int comp_soft = 58;
inline constexpr int comp_usual = 66;
inline constexpr int comp_strong = 74;
inline constexpr int comp_kick = 82;

/// The strums of bars that follow one another, in order of time; none rings past its chord.
/// seed: another seed, another part; the same: the same on every machine.
[[nodiscard]] std::vector<CompStrum> comp(const std::vector<CompBar>& bars, time::Meter meter,
                                          std::uint64_t seed);

}  // namespace compline::band
