#include "rivals.hpp"

#include <algorithm>
#include <tuple>

namespace compline::plan_rivals {

namespace {

using guitar::Cost;
using guitar::Stop;
using guitar::WayRound;

/// Chooses at each stop, one after another, the grip whose key is the least.
template <typename KeyOf>
WayRound choose(const std::vector<Stop>& stops, KeyOf key_of) {
    WayRound way;
    for (std::size_t at = 0; at < stops.size(); ++at) {
        const auto& ids = stops[at].ids;
        way.ids.push_back(
            *std::min_element(ids.begin(), ids.end(), [&](std::uint32_t a, std::uint32_t b) {
                return key_of(at, a, way) < key_of(at, b, way);
            }));
    }
    way.cost = guitar::cost_of(stops, way.ids);
    return way;
}

}  // namespace

WayRound nearest_next(const std::vector<Stop>& stops) {
    return choose(stops, [&](std::size_t at, std::uint32_t id, const WayRound& so_far) {
        const auto& stop = stops[at];
        const Cost own = stop.candidates->cost(id);
        if (at == 0) return own;
        return own + guitar::packed_reach(stops[at - 1].candidates->packed(so_far.ids.back()),
                                          stop.candidates->packed(id), stop.way_in);
    });
}

WayRound lowest_position(const std::vector<Stop>& stops) {
    return choose(stops, [&](std::size_t at, std::uint32_t id, const WayRound&) {
        const auto& candidates = *stops[at].candidates;
        return std::tuple(candidates.packed(id).hand, candidates.cost(id), id);
    });
}

int travel(const guitar::Fretboard& fretboard, const std::vector<Stop>& stops,
           const WayRound& way) {
    int frets = 0;
    for (std::size_t i = 0; i < stops.size(); ++i) {
        const std::size_t next = (i + 1) % stops.size();
        frets += guitar::move_between(fretboard, stops[i].candidates->grip(way.ids[i]),
                                      stops[next].candidates->grip(way.ids[next]))
                     .travel();
    }
    return frets;
}

}  // namespace compline::plan_rivals
