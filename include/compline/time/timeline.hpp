#pragma once

#include <compline/time/swing.hpp>
#include <compline/time/units.hpp>

namespace compline::time {

/// Three values (a tempo, a beat, the time of that beat) and two functions (beat -> time,
/// time -> beat). No clock is read here. A change of tempo is a new Timeline that agrees with the
/// old one at the change.
class Timeline {
  public:
    /// Beat 0 (bar 1 beat 1) at time zero.
    explicit Timeline(Bpm tempo) : Timeline(tempo, Beats(0), Seconds(0)) {}
    Timeline(Bpm tempo, Beats beat, Seconds at) : tempo_(tempo), beat_(beat), at_(at) {}

    [[nodiscard]] Bpm tempo() const { return tempo_; }
    [[nodiscard]] Seconds time_of(Beats beat) const {
        return at_ + tempo_.beat() * (beat - beat_).count();
    }
    [[nodiscard]] Seconds time_of(Ticks written) const { return time_of(Beats(written)); }
    [[nodiscard]] Beats beat_at(Seconds t) const {
        return beat_ + Beats((t - at_) / tempo_.beat());
    }
    /// The same line up to `when`, another tempo after it.
    [[nodiscard]] Timeline with_tempo_from(Bpm tempo, Beats when) const {
        return Timeline(tempo, when, time_of(when));
    }

  private:
    Bpm tempo_;
    Beats beat_;
    Seconds at_;
};

/// A timeline and the feel on it: where the band's strokes fall, and where a strum is due.
struct Groove {
    Timeline timeline;
    Swing swing;

    [[nodiscard]] Seconds time_of(Ticks written) const {
        return timeline.time_of(swing.played(written));
    }
};

}  // namespace compline::time
