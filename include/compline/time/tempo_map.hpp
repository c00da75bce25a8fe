#pragma once

#include <compline/time/units.hpp>

#include <cmath>
#include <vector>

namespace compline::time {

/// A moment at which the tempo changes.
struct TempoKnot {
    Beats beat;
    Seconds at;
    Bpm tempo;  ///< from here on
    bool operator==(const TempoKnot&) const = default;
};

/// Beats (quarter notes) to seconds and back: knots where the tempo changes, straight lines between
/// them, the first tempo also before the first knot. No clock is read here. One tempo is the map
/// with one knot.
///
/// Two functions, each the other's inverse to a nanosecond over an evening. Both rise strictly.
class TempoMap {
  public:
    /// Beat 0 (bar 1 beat 1) at time zero.
    explicit TempoMap(Bpm tempo) : TempoMap(tempo, Beats(0), Seconds(0)) {}
    TempoMap(Bpm tempo, Beats beat, Seconds at) : knots_{{beat, at, tempo}} {}

    /// The same map up to `from`, this tempo after it; what changed later is gone. `from`: at or
    /// after the first knot (asserted).
    [[nodiscard]] TempoMap with_tempo_from(Beats from, Bpm tempo) const;

    /// From the last knot on, or from a later beat, this tempo: as with_tempo_from(), in place.
    /// That of the last knot's own beat is replaced.
    void go_on(Beats from, Bpm tempo);

    /// What lies between these beats (`from` not before the first knot, `to` not before the last
    /// one, asserted) comes again and again from `to` on.
    void repeat(Beats from, Beats to);

    [[nodiscard]] Seconds time_of(Beats beat) const {
        const double again = loops_before(beat);
        const Beats here = beat - Beats(again * (loop_to_ - loop_from_).count());
        const TempoKnot& knot = knot_before(here);
        return knot.at + knot.tempo.beat() * (here - knot.beat).count() + loop_lasts_ * again;
    }
    [[nodiscard]] Seconds time_of(Ticks written) const { return time_of(Beats(written)); }
    [[nodiscard]] Beats beat_at(Seconds t) const;
    [[nodiscard]] Bpm tempo_at(Beats beat) const {
        return knot_before(beat - Beats(loops_before(beat) * (loop_to_ - loop_from_).count()))
            .tempo;
    }

    /// In order, one at least; of what comes again those of the first time.
    [[nodiscard]] const std::vector<TempoKnot>& knots() const { return knots_; }

    bool operator==(const TempoMap&) const = default;

  private:
    [[nodiscard]] const TempoKnot& knot_before(Beats beat) const;
    /// How often what comes again has gone by before a beat: a whole number.
    [[nodiscard]] double loops_before(Beats beat) const {
        if (loop_lasts_ <= Seconds(0) || beat < loop_to_) return 0;
        return std::floor((beat - loop_from_).count() / (loop_to_ - loop_from_).count());
    }

    Beats loop_from_;
    Beats loop_to_;
    Seconds loop_lasts_;  // 0: nothing comes again
    std::vector<TempoKnot> knots_;
};

}  // namespace compline::time
