#pragma once

#include "target.hpp"

#include <compline/assess/settings.hpp>

#include <optional>
#include <vector>

namespace compline::assess {

[[nodiscard]] constexpr bool is_off_beat(time::Ticks at) {
    return at % (time::eighth_note * 2) != time::Ticks(0);
}

/// What "in time" is for one player: where he stands beside the beat, how far off is still there.
struct OwnTime {
    struct Where {
        time::Seconds place;      ///< from the beat (or off-beat) to here it is all the same
        time::Seconds tolerance;  ///< on both sides
    };
    Where on_beats;
    Where off_beats;
    std::optional<time::Seconds> off_beat;  ///< the player's own, from the feel's
    /// ... by strums that change nothing alone: chords that come early would move it.
    std::optional<time::Seconds> off_beat_of_repeats;
    bool pushes_by_a_beat = false;
    std::vector<int> habits;  ///< beats in at which changes come in again and again, from 1 on
};

/// A point of the grid that a landing may be judged against, in time.
struct GridPoint {
    enum class Kind {
        own,    ///< where the change is due
        push,   ///< before it
        later,  ///< within the chord: for what begins there
    };
    Kind kind = Kind::own;
    double beats_in = 0;
    time::Seconds due;       ///< lateness counts from here
    time::Seconds earliest;  ///< nothing from here
    time::Seconds latest;    ///< to here is further off than another
    time::Seconds from;      ///< in time,
    time::Seconds to;        ///< first to last

    [[nodiscard]] time::Seconds distance(time::Seconds t) const;
    /// Any part of a strum, first to last onset, is in time here. What lies within the chord is for
    /// what begins there: the last strings of a chord that comes late excuse nothing.
    [[nodiscard]] bool takes(time::Seconds first, time::Seconds last) const;
};

/// Puts the form in time and knows the rules of rhythm.
class Grid {
  public:
    /// kicks: where the whole band is to strike, ascending.
    Grid(const time::Groove& groove, time::Meter meter, const Settings& settings,
         std::vector<time::Ticks> kicks = {});

    /// What is asked for, or what the tempo gives; of the player it knows nothing.
    [[nodiscard]] time::Seconds tolerance() const { return tolerance_; }
    [[nodiscard]] time::Seconds beat() const { return beat_; }
    [[nodiscard]] time::Meter meter() const { return meter_; }
    [[nodiscard]] time::Seconds time_of(time::Ticks at) const { return groove_.time_of(at); }
    [[nodiscard]] time::Seconds straight_time_of(time::Ticks at) const {
        return groove_.timeline.time_of(at);
    }
    [[nodiscard]] const time::Groove& groove() const { return groove_; }
    [[nodiscard]] const Rhythm& rhythm() const { return settings_.rhythm; }
    [[nodiscard]] bool is_free() const { return settings_.rhythm.kind == Rhythm::Kind::free; }
    [[nodiscard]] const std::vector<time::Ticks>& kicks() const { return kicks_; }

    /// The grid points a landing on this change may be judged against, the change's own first.
    [[nodiscard]] std::vector<GridPoint> points(const Target& target, const OwnTime& own) const;

    /// The beat or off-beat at or before a moment, `in` counted from a target.
    [[nodiscard]] time::Ticks last_point_in(const Target& target, time::Seconds t) const;

    /// A chord may be laid out here without fault: `free`, or a pattern with no strum in it.
    [[nodiscard]] bool may_lay_out(const Target& target) const;

    /// P may ring this long into N.
    [[nodiscard]] time::Seconds ring_limit() const;

  private:
    [[nodiscard]] GridPoint point(GridPoint::Kind kind, time::Ticks at, time::Ticks in,
                                  const OwnTime& own) const;
    void add_later(std::vector<GridPoint>& points, const Target& target, const OwnTime& own) const;
    [[nodiscard]] bool may_push(const Target& target) const;
    [[nodiscard]] time::Ticks own_point(const Target& target) const;
    [[nodiscard]] std::vector<time::Ticks> pattern_positions(const Target& target) const;

    time::Groove groove_;
    time::Meter meter_;
    const Settings& settings_;
    std::vector<time::Ticks> kicks_;
    time::Seconds tolerance_;
    time::Seconds beat_;
};

}  // namespace compline::assess
