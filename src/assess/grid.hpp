#pragma once

#include "target.hpp"

#include <compline/assess/assessment.hpp>

#include <vector>

namespace compline::assess {

/// A point of the grid that a landing may be judged against, in time. An off-beat has room, whether
/// it is a push or lies within the chord: anything between the straight and the swung one counts.
struct GridPoint {
    time::Seconds earliest;
    time::Seconds due;  ///< lateness counts from here
    double beats_in = 0;
    bool push = false;

    [[nodiscard]] time::Seconds distance(time::Seconds t) const;
    /// Any part of a strum, first to last onset, is in time here.
    [[nodiscard]] bool takes(time::Seconds first, time::Seconds last,
                             time::Seconds tolerance) const;
};

/// Puts the form in time and knows the rules of rhythm.
class Grid {
  public:
    /// kicks: where the whole band is to strike, ascending.
    Grid(const time::Groove& groove, time::Meter meter, const Settings& settings,
         std::vector<time::Ticks> kicks = {});

    [[nodiscard]] time::Seconds tolerance() const { return tolerance_; }
    [[nodiscard]] time::Seconds beat() const { return beat_; }
    [[nodiscard]] time::Meter meter() const { return meter_; }
    [[nodiscard]] time::Seconds time_of(time::Ticks at) const { return groove_.time_of(at); }
    [[nodiscard]] const time::Groove& groove() const { return groove_; }
    [[nodiscard]] const Rhythm& rhythm() const { return settings_.rhythm; }
    [[nodiscard]] const std::vector<time::Ticks>& kicks() const { return kicks_; }

    /// From when on a strum may be this change's landing. `from_length`: how long the chord before
    /// lasts; one of two beats or more may be left a whole beat early in `free`.
    [[nodiscard]] time::Seconds window_start(const Target& target, time::Ticks from_length) const;

    /// The grid points a landing on this change may be judged against, the change itself first.
    [[nodiscard]] std::vector<GridPoint> points(const Target& target) const;

    /// A chord may be laid out here without fault: `free`, or a pattern with no strum in it.
    [[nodiscard]] bool may_lay_out(const Target& target) const;

    /// P may ring this long into N.
    [[nodiscard]] time::Seconds ring_limit() const;

  private:
    [[nodiscard]] GridPoint point(time::Ticks at, time::Ticks in) const;
    void add_push(std::vector<GridPoint>& points, time::Ticks at) const;
    [[nodiscard]] bool may_push(time::Ticks at) const;
    void add_pattern(std::vector<GridPoint>& points, const Target& target) const;
    [[nodiscard]] std::vector<time::Ticks> pattern_positions(const Target& target) const;

    time::Groove groove_;
    time::Meter meter_;
    const Settings& settings_;
    std::vector<time::Ticks> kicks_;
    time::Seconds tolerance_;
    time::Seconds beat_;
    time::Seconds
        lead_;  ///< the longest of half a beat, the short note, and 200 ms (or nearly a beat)
};

}  // namespace compline::assess
