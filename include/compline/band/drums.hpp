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
//             5/4: as three and two; 6/4: as two bars of 3/4;
//             2/4: half a bar of 4/4: ride 1, 2, 2&, hi-hat on 2, kick on both;
//             2/2: the ride of 4/4, for it goes in quarters, over a foot in two: kick on both
//             halves, hi-hat on the second;
//             6/8, 9/8, 12/8: all eighths on the ride, the beat heavier and the middle one lighter,
//             hi-hat on the second beat (6/8: 4), in 9/8 on the second and third, in 12/8 on the
//             second and fourth; kick on 1, in 12/8 also on the third.
//             Half-time: the pattern twice as long: in 4/4 ride 1, 3, 4, hi-hat on 3, kick on 1 and
//             3. Double-time: twice as fast: hi-hat on every off-beat, kick on the quarters.
//   brushes   the same rhythm tapped on the snare over sweeps, of three eighths the first and
//   third;
//             in a ballad sweeps and the beats on which the hi-hat closes alone
//   quarters  the ride on every beat (2/2: quarters; half-time: halves; double-time: eighths; 6/8:
//             dotted quarters); hats: the foot alone
//   bossa     even eighths on the ride (or tapped), the cross-stick in a two-bar pattern (1, 2&, 4
//             | 2, 3&), kick on 1, 2&, 3, 4&; 2/2 the same, in double-time both bars of it in one.
//             2/4 and 3/4 have the stick on 2& | 2, kick on 1; 6/8, 9/8 and 12/8 where the hi-hat
//             closes, every second bar an eighth ahead.
// A fill is of the last two beats that the ride has; in 6/8, 9/8, 12/8 of their first and third
// eighths.
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
    std::vector<int> hihat_beats;    ///< beats, from 1; none: by meter
    bool fill = false;               ///< leads into what comes next, see above
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
[[nodiscard]] std::vector<Stroke> drum_bar(const DrumBar& bar, time::Meter meter);

/// On which beats the foot closes where nobody says: 4/4 on 2 and 4, 3/4 on 2, 5/4 and 6/4 on 2 and
/// 5, 2/4, 2/2 and 6/8 on the second, 9/8 on the second and third, 12/8 on the second and fourth.
[[nodiscard]] std::vector<int> usual_hihat_beats(time::Meter meter);

/// Stick clicks that end where bar 1 begins; negative ticks. Two bars: the first in half time (4/4:
/// 1 and 3; 5/4: 1 and 4; 6/4: 1 and 4; 3/4 and 2/4: 1 alone), the second on every beat. One bar:
/// every beat. 2/2 is counted as a 4/4 is: the halves, then the quarters, which say where the ride
/// goes. 6/8, 9/8 and 12/8: the beats, then all eighths, softer between the beats. Half-time and
/// double-time are counted as they are written. bars: 0 to 2 (asserted).
[[nodiscard]] std::vector<Stroke> count_in(time::Meter meter, int bars);

}  // namespace compline::band
