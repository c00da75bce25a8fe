#include <compline/time/tempo_map.hpp>

#include <algorithm>
#include <cassert>

namespace compline::time {

TempoMap TempoMap::with_tempo_from(Beats from, Bpm tempo) const {
    assert(from >= knots_.front().beat);
    TempoMap map = *this;
    map.loop_lasts_ = Seconds(0);
    while (map.knots_.size() > 1 && map.knots_.back().beat >= from) map.knots_.pop_back();
    auto& last = map.knots_.back();
    if (last.beat == from) {
        last.tempo = tempo;
    } else if (last.tempo != tempo) {
        map.knots_.push_back({from, map.time_of(from), tempo});
    }
    return map;
}

void TempoMap::go_on(Beats from, Bpm tempo) {
    auto& last = knots_.back();
    assert(from >= last.beat);
    if (last.beat == from) {
        last.tempo = tempo;
    } else if (last.tempo != tempo) {
        knots_.push_back({from, time_of(from), tempo});
    }
}

void TempoMap::repeat(Beats from, Beats to) {
    assert(from >= knots_.front().beat && to >= knots_.back().beat && from < to);
    const Seconds lasts = time_of(to) - time_of(from);
    loop_from_ = from;
    loop_to_ = to;
    loop_lasts_ = lasts;
}

Beats TempoMap::beat_at(Seconds t) const {
    double again = 0;
    if (loop_lasts_ > Seconds(0)) {
        const Seconds begins = time_of(loop_from_);
        if (t >= begins + loop_lasts_) again = std::floor((t - begins) / loop_lasts_);
    }
    t = t - loop_lasts_ * again;
    const auto after =
        std::upper_bound(knots_.begin() + 1, knots_.end(), t,
                         [](Seconds at, const TempoKnot& knot) { return at < knot.at; });
    const TempoKnot& knot = *std::prev(after);
    return knot.beat + Beats((t - knot.at) / knot.tempo.beat()) +
           Beats(again * (loop_to_ - loop_from_).count());
}

const TempoKnot& TempoMap::knot_before(Beats beat) const {
    const auto after =
        std::upper_bound(knots_.begin() + 1, knots_.end(), beat,
                         [](Beats at, const TempoKnot& knot) { return at < knot.beat; });
    return *std::prev(after);
}

}  // namespace compline::time
