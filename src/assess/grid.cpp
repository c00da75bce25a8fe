#include "grid.hpp"

#include <algorithm>
#include <utility>

namespace compline::assess {

using time::Seconds;
using time::Ticks;

namespace {
constexpr Ticks half_beat{480};

/// A chord this early costs what it can cost and is still that chord, not a missed one; short of
/// the beat before.
constexpr Seconds worst{0.200};
}  // namespace

Seconds GridPoint::distance(Seconds t) const {
    return std::max({earliest - t, t - due, Seconds(0)});
}

bool GridPoint::takes(Seconds first, Seconds last, Seconds tolerance) const {
    if (first > due + tolerance) return false;
    // Within a chord an off-beat's room is for what begins in it: the last strings of a chord that
    // comes late for its beat excuse nothing.
    const Seconds arrival = push ? last : first;
    return last >= due - tolerance || arrival >= earliest - tolerance;
}

Grid::Grid(const time::Groove& groove, time::Meter meter, const Settings& settings,
           std::vector<Ticks> kicks)
    : groove_(groove),
      meter_(meter),
      settings_(settings),
      kicks_(std::move(kicks)),
      tolerance_(settings.tolerance.value_or(auto_tolerance(groove))),
      beat_(groove.timeline.tempo().beat()),
      lead_(std::max({beat_ * 0.5, groove.swing.short_note(groove.timeline.tempo()),
                      std::min(worst, beat_ - tolerance_ * 2)})) {}

Seconds Grid::ring_limit() const { return std::max(Seconds(0.120), beat_ * 0.25); }

Seconds Grid::window_start(const Target& target, Ticks from_length) const {
    const bool whole_beat = settings_.rhythm.kind == Rhythm::Kind::free && settings_.pushes &&
                            target.from && from_length >= meter_.beat() * 2;
    return time_of(target.at) - (whole_beat ? beat_ : lead_) - tolerance_;
}

/// `in` after `at`. A beat is where it is, swung or straight.
GridPoint Grid::point(Ticks at, Ticks in) const {
    const Seconds swung = time_of(at + in);
    const Seconds straight = groove_.timeline.time_of(at + in);
    return {std::min(straight, swung), swung, time::Beats(in).count(), in < Ticks(0)};
}

/// Where pushes are off, a kick written on the off-beat before still asks for one.
bool Grid::may_push(Ticks at) const {
    return settings_.pushes || std::binary_search(kicks_.begin(), kicks_.end(), at - half_beat);
}

void Grid::add_push(std::vector<GridPoint>& points, Ticks at) const {
    points.push_back(point(at, -half_beat));
}

std::vector<GridPoint> Grid::points(const Target& target) const {
    std::vector<GridPoint> points;
    if (settings_.rhythm.kind == Rhythm::Kind::pattern) add_pattern(points, target);
    if (points.empty()) points.push_back(point(target.at, Ticks(0)));
    if (may_push(target.at) && points.front().beats_in >= 0) add_push(points, target.at);
    if (settings_.rhythm.kind != Rhythm::Kind::free) return points;
    if (settings_.pushes) points.push_back(point(target.at, -meter_.beat()));
    for (Ticks in = half_beat; in < target.length; in += half_beat) {
        points.push_back(point(target.at, in));
    }
    return points;
}

std::vector<Ticks> Grid::pattern_positions(const Target& target) const {
    std::vector<Ticks> positions;
    const Ticks bar = meter_.bar();
    const Ticks first_bar = Ticks((target.at / bar - 1) * bar.count());
    for (Ticks line = first_bar; line < target.at + target.length; line += bar) {
        for (const Ticks in_bar : settings_.rhythm.due_in_bar(meter_)) {
            const Ticks in = line + in_bar - target.at;
            if (in >= -half_beat && in < target.length) positions.push_back(in);
        }
    }
    return positions;
}

/// A pattern names where the change is heard first: on it, pushed before it, or after it.
void Grid::add_pattern(std::vector<GridPoint>& points, const Target& target) const {
    const auto positions = pattern_positions(target);
    if (positions.empty()) return;
    const bool on_it = std::find(positions.begin(), positions.end(), Ticks(0)) != positions.end();
    points.push_back(point(target.at, on_it ? Ticks(0) : positions.front()));
}

bool Grid::may_lay_out(const Target& target) const {
    if (settings_.rhythm.kind == Rhythm::Kind::free) return true;
    return settings_.rhythm.kind == Rhythm::Kind::pattern && pattern_positions(target).empty();
}

}  // namespace compline::assess
