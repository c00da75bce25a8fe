#include <compline/time/tempo_map.hpp>

#include <algorithm>
#include <cassert>

namespace compline::time {

TempoMap TempoMap::with_tempo_from(Beats from, Bpm tempo) const {
    assert(from >= knots_.front().beat);
    TempoMap map = *this;
    while (map.knots_.size() > 1 && map.knots_.back().beat >= from) map.knots_.pop_back();
    auto& last = map.knots_.back();
    if (last.beat == from) {
        last.tempo = tempo;
    } else if (last.tempo != tempo) {
        map.knots_.push_back({from, map.time_of(from), tempo});
    }
    return map;
}

Beats TempoMap::beat_at(Seconds t) const {
    const auto after =
        std::upper_bound(knots_.begin() + 1, knots_.end(), t,
                         [](Seconds at, const TempoKnot& knot) { return at < knot.at; });
    const TempoKnot& knot = *std::prev(after);
    return knot.beat + Beats((t - knot.at) / knot.tempo.beat());
}

const TempoKnot& TempoMap::knot_before(Beats beat) const {
    const auto after =
        std::upper_bound(knots_.begin() + 1, knots_.end(), beat,
                         [](Beats at, const TempoKnot& knot) { return at < knot.beat; });
    return *std::prev(after);
}

}  // namespace compline::time
