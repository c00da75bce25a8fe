#pragma once

#include <compline/time/units.hpp>

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

    [[nodiscard]] Seconds time_of(Beats beat) const {
        const TempoKnot& knot = knot_before(beat);
        return knot.at + knot.tempo.beat() * (beat - knot.beat).count();
    }
    [[nodiscard]] Seconds time_of(Ticks written) const { return time_of(Beats(written)); }
    [[nodiscard]] Beats beat_at(Seconds t) const;
    [[nodiscard]] Bpm tempo_at(Beats beat) const { return knot_before(beat).tempo; }

    /// In order, one at least.
    [[nodiscard]] const std::vector<TempoKnot>& knots() const { return knots_; }

    bool operator==(const TempoMap&) const = default;

  private:
    [[nodiscard]] const TempoKnot& knot_before(Beats beat) const;

    std::vector<TempoKnot> knots_;
};

}  // namespace compline::time
