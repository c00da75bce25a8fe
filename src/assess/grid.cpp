#include "grid.hpp"

#include <algorithm>
#include <iterator>

namespace compline::assess {

using time::Beats;
using time::eighth_note;
using time::Seconds;
using time::Ticks;

namespace {

/// However wide a player scatters.
constexpr Seconds widest_tolerance{0.060};
constexpr Seconds shortest_ring_limit{0.120};

Pace pace_of(const time::TempoKnot& knot, const time::Swing& swing, const Settings& settings) {
    const Seconds beat = knot.tempo.beat();
    // A beat and the off-beat before it never overlap.
    const Seconds widest = std::min(widest_tolerance, swing.short_note(knot.tempo) * 0.5);
    return {knot.beat, knot.at, beat,
            settings.tolerance.value_or(auto_tolerance(knot.tempo, swing)),
            // What is asked for holds everywhere.
            settings.tolerance ? Seconds(0) : widest, std::max(shortest_ring_limit, beat * 0.25)};
}

}  // namespace

Seconds GridPoint::distance(Seconds t) const {
    return std::max({earliest - t, t - latest, Seconds(0)});
}

bool GridPoint::takes(Seconds first, Seconds last) const {
    return first <= to && (kind == Kind::later ? first : last) >= from;
}

Grid::Grid(const roadmap::RoadMap& map, const Settings& settings)
    : map_(map), settings_(settings), kicks_(map.kicks()) {
    for (const auto& knot : map.tempi().knots()) {
        paces_.push_back(pace_of(knot, map.swing(knot.tempo), settings));
    }
    for (const auto& bar : map.form().bars) {
        rhythms_.push_back(settings.rhythm.value_or(chart::rhythm_in(map.form(), bar)));
    }
}

const Pace& Grid::pace_at(Ticks at) const {
    const Beats beat(at);
    const auto after = std::upper_bound(paces_.begin() + 1, paces_.end(), beat,
                                        [](Beats b, const Pace& pace) { return b < pace.from; });
    return *std::prev(after);
}

const Pace& Grid::pace_at(Seconds t) const {
    const auto after = std::upper_bound(paces_.begin() + 1, paces_.end(), t,
                                        [](Seconds s, const Pace& pace) { return s < pace.at; });
    return *std::prev(after);
}

bool is_off_beat(const roadmap::RoadMap& map, Ticks at) {
    const auto bar = map.bar_at(at);
    const auto unit =
        bar.meter().is_compound() ? bar.meter().beat() : std::max(bar.meter().swung(), eighth_note);
    return (at - bar.start) % unit != Ticks(0);
}

/// `in` after `at`. A push may be as straight as it likes, or swing as this player does.
GridPoint Grid::point(GridPoint::Kind kind, Ticks at, Ticks in, const OwnTime& own) const {
    const auto& where = is_off_beat(at + in) ? own.off_beats : own.on_beats;
    GridPoint point;
    point.kind = kind;
    point.beats_in = time::Beats(in).count();
    point.due = time_of(at + in);
    point.earliest = point.due;
    point.latest = point.due;
    if (kind == GridPoint::Kind::push) {
        point.earliest = std::min(point.due, straight_time_of(at + in));
        const bool own_off_beat = own.off_beat_of_repeats && is_off_beat(at + in);
        if (own_off_beat) point.latest = std::max(point.due, point.due + *own.off_beat_of_repeats);
    }
    const Seconds tolerance = where.tolerance(pace_at(at + in));
    point.from = point.earliest + std::min(where.place, Seconds(0)) - tolerance;
    point.to = std::max(point.latest, point.due + where.place) + tolerance;
    return point;
}

/// A pattern names where the change is heard first: on it or after it; pushed before it only where
/// the chord has no other place.
Ticks Grid::own_point(const Target& target) const {
    if (!has_pattern(target)) return Ticks(0);
    const auto positions = pattern_positions(target);
    const auto in_chord =
        std::find_if(positions.begin(), positions.end(), [](Ticks in) { return in >= Ticks(0); });
    if (in_chord != positions.end()) return *in_chord;
    return positions.empty() ? Ticks(0) : positions.front();
}

/// Where pushes are off, a kick written on the off-beat before still asks for one, and so does a
/// pattern with that off-beat in it.
bool Grid::may_push(const Target& target) const {
    if (settings_.pushes) return true;
    if (std::binary_search(kicks_.begin(), kicks_.end(), target.at - eighth_note)) return true;
    if (!has_pattern(target)) return false;
    const auto positions = pattern_positions(target);
    return !positions.empty() && positions.front() == -eighth_note;
}

std::vector<GridPoint> Grid::points(const Target& target, const OwnTime& own) const {
    using Kind = GridPoint::Kind;
    const Ticks due = own_point(target);
    std::vector<GridPoint> points{
        point(due < Ticks(0) ? Kind::push : Kind::own, target.at, due, own)};
    if (may_push(target) && due >= Ticks(0)) {
        points.push_back(point(Kind::push, target.at, -eighth_note, own));
    }
    if (!is_free(target)) return points;
    if (settings_.pushes && own.pushes_by_a_beat) {
        points.push_back(point(Kind::push, target.at, -meter_of(target).beat(), own));
    }
    add_later(points, target, own);
    return points;
}

/// An off-beat is the feel's, or this player's own.
void Grid::add_later(std::vector<GridPoint>& points, const Target& target,
                     const OwnTime& own) const {
    for (Ticks in = eighth_note; in < target.length; in += eighth_note) {
        points.push_back(point(GridPoint::Kind::later, target.at, in, own));
        if (!own.off_beat || !is_off_beat(target.at + in)) continue;
        auto players = points.back();
        for (auto* moment : {&players.due, &players.earliest, &players.latest}) {
            *moment += *own.off_beat;
        }
        const Seconds tolerance = own.off_beats.tolerance(pace_at(target.at + in));
        players.from = players.due - tolerance;
        players.to = players.due + tolerance;
        points.push_back(players);
    }
}

Ticks Grid::last_point_in(const Target& target, Seconds t) const {
    Ticks in(0);
    while (in + eighth_note < target.length && time_of(target.at + in + eighth_note) <= t) {
        in += eighth_note;
    }
    return in;
}

std::vector<Ticks> Grid::pattern_positions(const Target& target) const {
    std::vector<Ticks> positions;
    const auto add = [&](Ticks line, time::Meter meter, int in_form) {
        if (in_form == 0) return;
        for (const Ticks in_bar : rhythm_in(in_form).due_in_bar(meter)) {
            const Ticks in = line + in_bar - target.at;
            if (in >= -eighth_note && in < target.length) positions.push_back(in);
        }
    };
    const auto here = map_.bar_at(target.at);
    // A push into its first beat stands in the bar before; the first bar counts as one before it.
    const auto before = here.number > 1 ? map_.bar(here.number - 1) : here;
    add(here.start - before.meter().bar(), before.meter(), before.in_form());
    const auto bars = *map_.bars();
    for (auto number = here.number; number <= bars; ++number) {
        const auto bar = map_.bar(number);
        if (bar.start >= target.at + target.length) break;
        add(bar.start, bar.meter(), bar.in_form());
    }
    return positions;
}

bool Grid::may_lay_out(const Target& target) const {
    if (is_free(target)) return true;
    return has_pattern(target) && pattern_positions(target).empty();
}

}  // namespace compline::assess
