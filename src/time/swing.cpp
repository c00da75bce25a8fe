#include <compline/time/swing.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace compline::time {

namespace {

/// Piecewise linear inside each beat: [0, from] -> [0, to], [from, 1] -> [to, 1].
Beats bend(Beats at, double from, double to) {
    const double beat = std::floor(at.count());
    const double part = at.count() - beat;
    const double bent =
        part < from ? part / from * to : to + (part - from) / (1.0 - from) * (1.0 - to);
    return Beats(beat + bent);
}

}  // namespace

Swing::Swing(double ratio) : ratio_(ratio) { assert(ratio >= 1.0 && ratio <= 3.0); }

Swing Swing::at(Bpm tempo) {
    const double beat = tempo.beat().count();
    const double short_note = 0.0481 + 0.1735 * beat;
    return Swing(std::clamp((beat - short_note) / short_note, 1.0, 3.0));
}

Seconds Swing::short_note(Bpm tempo) const { return tempo.beat() * (1.0 - off_beat()); }

Beats Swing::played(Beats written) const { return bend(written, 0.5, off_beat()); }

Beats Swing::written(Beats played) const { return bend(played, off_beat(), 0.5); }

}  // namespace compline::time
