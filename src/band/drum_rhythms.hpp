#pragma once

#include "drum_figures.hpp"

#include <compline/time/meter.hpp>

#include <vector>

namespace compline::band {

// What a drummer's hand plays in a bar, meter by meter: see drums.hpp.

/// A stroke of one hand.
struct Touch {
    time::Ticks at;
    int velocity;
};
using DrumRhythm = std::vector<Touch>;

/// The ride's rhythm. Five is three and two, six twice three. A lighter cell leaves a skip out; a
/// waltz has one skip alone: it moves ahead of 1, or comes twice. In 6/8, 9/8 and 12/8 the middle
/// eighths are the lighter ones and are left out.
[[nodiscard]] DrumRhythm time_rhythm(const time::Meter& meter, Cell cell);

/// The same as a brush taps it: of three eighths the middle one is the sweep's.
[[nodiscard]] DrumRhythm tap_rhythm(const time::Meter& meter, Cell cell);

[[nodiscard]] DrumRhythm every_pulse(const time::Meter& meter, int velocity);

/// Of a bossa; a lighter bar leaves out the off-beat after its first beat or after its third.
[[nodiscard]] DrumRhythm every_eighth(const time::Meter& meter, int on, int off, Cell cell);

/// Of a bossa, where 4/4 has its own pattern over two bars; first: the bar begins it.
struct BossaBar {
    std::vector<time::Ticks> sticks;  ///< the cross-stick
    DrumRhythm kicks;
};
[[nodiscard]] BossaBar bossa_bar(const time::Meter& meter, bool first);

/// Where a bar leans, a beat from 1: 4/4 on 2 and 4, a waltz on 2, 9/8 on 2 and 3.
[[nodiscard]] bool is_back_beat(int number, const time::Meter& meter);

}  // namespace compline::band
