#include "grid.hpp"

#include <algorithm>
#include <utility>

namespace compline::assess {

using time::eighth_note;
using time::Seconds;
using time::Ticks;

Seconds GridPoint::distance(Seconds t) const {
    return std::max({earliest - t, t - latest, Seconds(0)});
}

bool GridPoint::takes(Seconds first, Seconds last) const {
    return first <= to && (kind == Kind::later ? first : last) >= from;
}

Grid::Grid(const time::Groove& groove, time::Meter meter, const Settings& settings,
           std::vector<Ticks> kicks)
    : groove_(groove),
      meter_(meter),
      settings_(settings),
      kicks_(std::move(kicks)),
      tolerance_(settings.tolerance.value_or(auto_tolerance(groove))),
      beat_(groove.timeline.tempo().beat()) {}

Seconds Grid::ring_limit() const { return std::max(Seconds(0.120), beat_ * 0.25); }

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
    point.from = point.earliest + std::min(where.place, Seconds(0)) - where.tolerance;
    point.to = std::max(point.latest, point.due + where.place) + where.tolerance;
    return point;
}

/// A pattern names where the change is heard first: on it or after it; pushed before it only where
/// the chord has no other place.
Ticks Grid::own_point(const Target& target) const {
    if (settings_.rhythm.kind != Rhythm::Kind::pattern) return Ticks(0);
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
    if (settings_.rhythm.kind != Rhythm::Kind::pattern) return false;
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
    if (!is_free()) return points;
    if (settings_.pushes && own.pushes_by_a_beat) {
        points.push_back(point(Kind::push, target.at, -meter_.beat(), own));
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
        players.from = players.due - own.off_beats.tolerance;
        players.to = players.due + own.off_beats.tolerance;
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
    const Ticks bar = meter_.bar();
    const Ticks first_bar = Ticks((target.at / bar - 1) * bar.count());
    for (Ticks line = first_bar; line < target.at + target.length; line += bar) {
        for (const Ticks in_bar : settings_.rhythm.due_in_bar(meter_)) {
            const Ticks in = line + in_bar - target.at;
            if (in >= -eighth_note && in < target.length) positions.push_back(in);
        }
    }
    return positions;
}

bool Grid::may_lay_out(const Target& target) const {
    if (is_free()) return true;
    return settings_.rhythm.kind == Rhythm::Kind::pattern && pattern_positions(target).empty();
}

}  // namespace compline::assess
