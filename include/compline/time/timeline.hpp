#pragma once

#include <compline/time/swing.hpp>
#include <compline/time/units.hpp>

#include <vector>

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

/// Swing that changes along the way, at bar lines: a bossa A and a swung B. Beats stay where they
/// are under every swing, so nothing moves at a change but the off-beats. Empty: no change ever.
class SwingChanges {
  public:
    SwingChanges() = default;

    /// From `from` on, swing `swing`; in order of `from` (asserted).
    void add(Ticks from, const Swing& swing);

    /// What stands from `from` on comes again and again, `length` (more than 0, asserted) at a
    /// time.
    void repeat(Ticks from, Ticks length);

    /// The swing at a written position; `otherwise` before the first change.
    [[nodiscard]] Swing at(Ticks written, const Swing& otherwise) const;

  private:
    struct SwingChange {
        Ticks from;
        Swing swing;
    };
    std::vector<SwingChange> changes_;
    Ticks loop_from_;
    Ticks loop_length_;  // 0: none
};

/// A timeline and the feel on it: where the band's strokes fall, and where a strum is due.
struct Groove {
    Timeline timeline;
    Swing swing;  ///< of the tune as a whole: what tolerances and reports go by
    SwingChanges changes = {};

    [[nodiscard]] Swing swing_at(Ticks written) const { return changes.at(written, swing); }
    [[nodiscard]] Seconds time_of(Ticks written) const {
        return timeline.time_of(swing_at(written).played(written));
    }
    /// Where a moment would stand if written straight, in beats; the inverse of time_of().
    [[nodiscard]] Beats written_at(Seconds t) const;
};

}  // namespace compline::time
