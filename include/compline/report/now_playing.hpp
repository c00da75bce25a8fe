#pragma once

#include <compline/guitar/voicing_plan.hpp>
#include <compline/report/chart_rows.hpp>
#include <compline/report/fret_diagram.hpp>
#include <compline/roadmap/road_map.hpp>
#include <compline/time/units.hpp>

#include <string>
#include <vector>

namespace compline::report {

// Where we are, to be read from a metre away with a guitar on the lap:
//
//     A | F7              [ B♭7             ] F7              | Cm7     F7      |
//                           ·   2   ·   ·
//     A | B♭7             | Bdim7           | F7              | Am7♭5   D7♭9    |
//
//     2nd of 8   bar 2 of 12   132 bpm
//     space: start over   q: stop
//
// The row being played, the bar in brackets and the beat below it; the row that comes next. It is
// complete without attributes; with them the bar is in reverse too. Where the road map leaves
// somebody out, that stands behind the tempo, so that nobody looks for a fault: "(silence)" where
// nobody plays, "(drums out)" where others play on.
//
// With voicings, below the rows the grip to be held now and the one that comes next:
//
//     now  B♭7                    next  Bdim7  bar 6
//        x   x     x                 x   x   x
//        ┌─┬─┬─┬─┬─┐                 ┌─┬─┬─┬─┬─┐
//      6 │ │ │ 1 │ │               6 │ │ │ 1 │ │
//
// They move on half a beat ahead of the chord, as the hand does.

/// What stays the same from beat to beat.
struct Playing {
    roadmap::RoadMap map;
    bool attributes = false;  ///< whether bold, dim and reverse may be used
    /// What the player plays, covering the way; null: nothing is shown. It must outlive the call.
    const guitar::VoicingPlan* voicings = nullptr;
};

/// Lines of what now_playing gives, always; with voicings so many more.
inline constexpr std::size_t now_playing_lines = 6;
inline constexpr int frets_shown = 5;  ///< what a hand spans, so that the height stays the same
inline constexpr std::size_t voicings_lines = frets_shown + 4;

/// The display at a position of the road map, whose bars the rows cover (asserted); negative in the
/// count-in, when the first row stands there as coming and the count is shown: "1 - 2 -   1 2 3 4".
/// After the last row comes the first of the next time through; nothing after the last, when no bar
/// is marked. No line is wider than the rows' columns.
[[nodiscard]] std::vector<std::string> now_playing(const ChartRows& rows, const Playing& playing,
                                                   time::Ticks position);

}  // namespace compline::report
