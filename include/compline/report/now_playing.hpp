#pragma once

#include <compline/guitar/voicing_plan.hpp>
#include <compline/listen/heard_by.hpp>
#include <compline/report/chart_rows.hpp>
#include <compline/report/fret_diagram.hpp>
#include <compline/roadmap/road_map.hpp>
#include <compline/time/units.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::report {

// Where we are, to be read from a metre away with a guitar on the lap:
//
//     A | F7              [ B♭7             ] F7              | Cm7     F7      |
//                           ·   2   ·   ·
//     A | B♭7             | Bdim7           | F7              | Am7♭5   D7♭9    |
//
//     2nd of 8   bar 2 of 12   132 bpm   loop 1-4   drums out
//     space: pause  ↑ ↓: tempo  w: whole tune  d b: drums, bass  Home: top  q: stop
//
// The row being played, the bar in brackets and the beat below it; the row that comes next. It is
// complete without attributes; with them the bar is in reverse too. Where the road map leaves
// somebody out, that stands behind the tempo, so that nobody looks for a fault: "(silence)" where
// nobody plays, "(drums out)" where others play on. Then what the player decided, and why a wish of
// his changed nothing: "no slower". Of who is heard by sound: "by sound: time alone".
//
// With voicings, below the rows the grip to be held now and the one that comes next:
//
//     now  B♭7                    next  Bdim7  bar 6
//        x   x     x                 x   x   x
//        ┌─┬─┬─┬─┬─┐                 ┌─┬─┬─┬─┬─┐
//      6 │ │ │ 1 │ │               6 │ │ │ 1 │ │
//
// They move on half a beat ahead of the chord, as the hand does.

/// How it is shown: the rows of the chart, to be read sitting, or as large as the window allows, to
/// be read standing (see large_view.hpp).
enum class View { rows, large };
/// "rows", "large".
[[nodiscard]] std::string_view name_of(View view);

/// What the display may take of a terminal.
struct Window {
    int columns = widest_rows;
    int lines = 1000;  ///< as many as there are to show
};

/// What the player has decided while it played, and what became of his last wish.
struct Decided {
    std::optional<time::Bpm> tempo;  ///< of what is decided; it may count from the next bar on
    bool drums_out = false;          ///< they, or the clicks in their place
    bool bass_out = false;
    bool paused = false;                 ///< asked for, or there already
    bool rubato = false;                 ///< because the tune is out of time there
    bool until_cue = false;              ///< what is played comes again until the cue
    std::optional<int> goes_on_with;     ///< a bar of the form; none: the first of the row shown
    std::optional<chart::Passage> loop;  ///< that is played, or comes next
    std::string refused;                 ///< why the last wish changed nothing; empty: it did
};

/// What stays the same from beat to beat.
struct Playing {
    roadmap::RoadMap map;
    bool attributes = false;  ///< whether bold, dim and reverse may be used
    /// What the player plays, covering the way; null: nothing is shown. It must outlive the call.
    const guitar::VoicingPlan* voicings = nullptr;
    Decided decided = {};
    Window window = {};
    View view = View::rows;
    Hand hand = Hand::right;  ///< how the neck is seen
    listen::HeardBy heard_by = listen::HeardBy::midi;
};

/// Lines of what now_playing gives where they fit into the window; with voicings so many more.
inline constexpr std::size_t now_playing_lines = 6;
inline constexpr int frets_shown = 5;  ///< what a hand spans, so that the height stays the same
inline constexpr std::size_t voicings_lines = frets_shown + 4;

/// The display at a position of the road map, whose bars the rows cover (asserted); negative in the
/// count-in, when the first row stands there as coming and the count is shown: "1 - 2 -   1 2 3 4".
/// After the last row comes the first of the next time through; nothing after the last, when no bar
/// is marked. In a pause the row stands ready with which it goes on.
///
/// No line is wider than the window, where the rows are not. Where it has no room for all lines the
/// more useful ones stay: the row and its beats, the status, the keys, the next row, the grips (or
/// their names and frets in one line), blank lines at last. Of the status and the keys whole words
/// go.
[[nodiscard]] std::vector<std::string> now_playing(const ChartRows& rows, const Playing& playing,
                                                   time::Ticks position);

}  // namespace compline::report
