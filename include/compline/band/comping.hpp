#pragma once

#include <compline/chart/chart.hpp>
#include <compline/time/units.hpp>

#include <vector>

namespace compline::band {

// When a comping guitar strikes: each chord where it starts, and little more, so that a plan of
// voicings is heard as it stands (common practice, no source).

/// A bar as the guitar sees it.
struct CompBar {
    time::Ticks start;   ///< in the form
    int in_section = 0;  ///< from 0: of two bars of a bossa which one it is
    chart::Feel feel = chart::Feel::swing;
    std::vector<chart::Slot> slots;  ///< chords, from the bar line
    std::vector<time::Ticks> kicks;  ///< from the bar line, ascending
};

struct CompStrum {
    time::Ticks at;  ///< from the first bar's beginning
    time::Ticks length;
    time::Ticks in_form;  ///< the position whose chord it plays: on a push the chord to come
    int velocity = 70;
    bool operator==(const CompStrum&) const = default;
};

/// The strums of bars that follow one another, in order of time; none rings past its bar.
///
/// Swing and straight: a chord where it starts, and in a long bar again on the off-beat after its
/// second beat (a Charleston); where a chord goes on in the next bar only there, every other bar.
/// Bossa: the two bars of the cross-stick, moved to where chords start. Ballad: long notes on the
/// strong beats, and no off-beats. Kicks of the whole band are played too; one within half a beat
/// before a chord brings it early.
[[nodiscard]] std::vector<CompStrum> comp(const std::vector<CompBar>& bars, time::Meter meter);

}  // namespace compline::band
