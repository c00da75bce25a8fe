#pragma once

#include "target.hpp"

#include <compline/assess/settings.hpp>
#include <compline/roadmap/road_map.hpp>

#include <algorithm>
#include <optional>
#include <vector>

namespace compline::assess {

/// Between two beats of its bar: where a quarter is counted (in 2/2 too), between two of these, in
/// 6/8, 9/8 and 12/8 between two beats. Before bar 1 and past the end the bars go on as they are
/// there.
[[nodiscard]] bool is_off_beat(const roadmap::RoadMap& map, time::Ticks at);

/// What a tempo gives and asks; of the player it knows nothing.
struct Pace {
    time::Beats from;          ///< it holds from here on,
    time::Seconds at;          ///< that is from then on
    time::Seconds beat;        ///< a quarter note
    time::Seconds tolerance;   ///< what is asked for, or what the tempo gives
    time::Seconds widest;      ///< no scatter of a player widens it further
    time::Seconds ring_limit;  ///< a chord may ring this long into the next

    /// So many beats at most, both ends of them played by hand.
    [[nodiscard]] time::Seconds by_hand(int beats) const { return beat * beats + tolerance * 2; }
};

/// What "in time" is for one player: where he stands beside the beat, how far off is still there.
struct OwnTime {
    struct Where {
        time::Seconds place;    ///< from the beat (or off-beat) to here it is all the same
        time::Seconds scatter;  ///< what his own hand would have as tolerance; 0: not known

        /// On both sides.
        [[nodiscard]] time::Seconds tolerance(const Pace& pace) const {
            return std::max(pace.tolerance, std::min(scatter, pace.widest));
        }
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

/// Knows the rules of rhythm on a road map that ends.
class Grid {
  public:
    /// Both must outlive it.
    Grid(const roadmap::RoadMap& map, const Settings& settings);

    [[nodiscard]] const roadmap::RoadMap& map() const { return map_; }
    /// As the bar there has it; before bar 1 as that has it.
    [[nodiscard]] const Pace& pace_at(time::Ticks at) const;
    [[nodiscard]] const Pace& pace_at(time::Seconds t) const;
    [[nodiscard]] time::Meter meter_of(const Target& target) const {
        return map_.form().bar(target.bar).meter;
    }
    [[nodiscard]] time::Seconds time_of(time::Ticks at) const { return map_.time_of(at); }
    [[nodiscard]] time::Seconds straight_time_of(time::Ticks at) const {
        return map_.tempi().time_of(at);
    }
    [[nodiscard]] bool is_off_beat(time::Ticks at) const { return assess::is_off_beat(map_, at); }
    /// What is meant to be played in a bar of the form.
    [[nodiscard]] const Rhythm& rhythm_in(int bar) const {
        return rhythms_[static_cast<std::size_t>(bar - 1)];
    }
    [[nodiscard]] bool is_free(const Target& target) const {
        return rhythm_in(target.bar).kind == Rhythm::Kind::free;
    }
    [[nodiscard]] const std::vector<time::Ticks>& kicks() const { return kicks_; }
    /// A bar of the form: all are judged, or those of a part.
    [[nodiscard]] bool judges(int bar) const {
        const auto& part = settings_.part;
        return !part || (bar >= part->from && bar <= part->to);
    }

    /// The grid points a landing on this change may be judged against, the change's own first.
    [[nodiscard]] std::vector<GridPoint> points(const Target& target, const OwnTime& own) const;

    /// The beat or off-beat at or before a moment, `in` counted from a target.
    [[nodiscard]] time::Ticks last_point_in(const Target& target, time::Seconds t) const;

    /// A chord may be laid out here without fault: `free`, or a pattern with no strum in it.
    [[nodiscard]] bool may_lay_out(const Target& target) const;

  private:
    [[nodiscard]] GridPoint point(GridPoint::Kind kind, time::Ticks at, time::Ticks in,
                                  const OwnTime& own) const;
    void add_later(std::vector<GridPoint>& points, const Target& target, const OwnTime& own) const;
    [[nodiscard]] bool may_push(const Target& target) const;
    [[nodiscard]] time::Ticks own_point(const Target& target) const;
    [[nodiscard]] bool has_pattern(const Target& target) const {
        return rhythm_in(target.bar).kind == Rhythm::Kind::pattern;
    }
    [[nodiscard]] std::vector<time::Ticks> pattern_positions(const Target& target) const;

    const roadmap::RoadMap& map_;
    const Settings& settings_;
    std::vector<time::Ticks> kicks_;
    std::vector<Rhythm> rhythms_;  ///< of each bar of the form
    std::vector<Pace> paces_;      ///< of each tempo, in order
};

}  // namespace compline::assess
