#pragma once

#include <compline/band/band.hpp>
#include <compline/time/meter.hpp>

#include <cstdint>
#include <vector>

namespace compline::band {

// Time-keeping as jazz drummers play it (common practice, no source). Skips are written on the
// off-beat eighth: swing puts them where they are played.
//   ride      4/4: ride 1, 2, 2&, 3, 4, 4& (a little louder on 2 and 4), hi-hat foot on 2 and 4,
//             the kick feathered on all four beats, felt rather than heard;
//             3/4: ride 1, 2, 2&, 3, hi-hat on 2, kick on 1;
//             5/4: as three and two; 6/4: as two bars of 3/4.
//   brushes   the same rhythm tapped on the snare over sweeps; in a ballad sweeps and 2 and 4 alone
//   quarters  the ride on every beat; hats: the foot alone
//   bossa     even eighths on the ride (or tapped), the cross-stick in a two-bar pattern (1, 2&, 4
//   |
//             2, 3&), kick on 1, 2&, 3, 4&.
// Where the manner breathes, phrases of four bars are played: the hands rise to the fourth bar and
// fall over it, a few steps of velocity; some bars leave out a skip of the ride (or taps), and a
// phrase's third bar may be in quarters; into an eighth bar's end goes a light fill beside the
// time. Foot and kick stay, and nothing moves in time: fills are eighths, since swing
// bends all else (a written triplet would be none at most ratios).

/// A bar as the drummer reads it.
struct DrumBar {
    Manner manner;
    int number = 0;                  ///< in its section, from 0: two-bar patterns go by it
    std::vector<time::Ticks> kicks;  ///< marked by snare and kick; from the bar line, ascending
    std::vector<int> hihat_beats;    ///< none: by meter
    bool fill = false;               ///< leads into what comes next, over its last two beats
    bool crash = false;              ///< on 1
    int figure = 0;                  ///< which fill; see fill_figures
    bool light_fill = false;         ///< where the manner breathes
    std::uint64_t phrase = 0;        ///< chance of its phrase, the same in all of its bars
};

/// Figures that a fill can be, of one and two beats: so many.
inline constexpr int fill_figures = 7;
/// ... and a light one.
inline constexpr int light_figures = 5;

/// The figures played last, for none is played twice running; -1: none yet.
struct LastFigures {
    int fill = -1;
    int light_fill = -1;
};

/// The strokes of a bar from its bar line, in order of time; struck together, in the order of Drum.
/// meter: 3 to 6 beats (asserted).
[[nodiscard]] std::vector<Stroke> drum_bar(const DrumBar& bar, time::Meter meter);

/// What the foot does where nobody says: 4/4 on 2 and 4, 3/4 on 2, 5/4 on 2 and 5, 6/4 on 2 and 5.
[[nodiscard]] std::vector<int> usual_hihat_beats(time::Meter meter);

/// Stick clicks that end where bar 1 begins; negative ticks. Two bars: the first in half time
/// (4/4: 1 and 3; 5/4: 1 and 4; 6/4: 1 and 4; 3/4: 1 alone), the second on every beat. One bar:
/// every beat. bars: 0 to 2 (asserted).
[[nodiscard]] std::vector<Stroke> count_in(time::Meter meter, int bars);

}  // namespace compline::band
