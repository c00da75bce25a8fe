#include "ring.hpp"

#include "closing.hpp"
#include "forward_walk.hpp"

#include <algorithm>
#include <cassert>
#include <numeric>
#include <utility>

namespace compline::guitar {

namespace {

/// Most rings close for a little more than the free way costs.
constexpr Cost usual_seam = 60;

/// A way that need not close is closed: the first grip is chosen anew, the others stay.
WayRound mended(const std::vector<Stop>& stops, WayRound way) {
    const auto& first = stops.front();
    const auto& second = stops[1 % stops.size()];
    const auto& before = stops.back().candidates->packed(way.ids.back());
    const auto& after = second.candidates->packed(way.ids[1 % stops.size()]);
    Cost least = never;
    for (const auto id : first.ids) {
        const auto& grip = first.candidates->packed(id);
        const Cost cost = packed_reach(before, grip, first.way_in) + first.candidates->cost(id) +
                          packed_reach(grip, after, second.way_in);
        if (cost >= least) continue;
        least = cost;
        way.ids.front() = id;
    }
    way.cost = cost_of(stops, way.ids);
    return way;
}

bool is_least_work(const Stop& a, const Stop& b) { return a.ids.size() < b.ids.size(); }

/// The ring from another stop on.
template <typename T>
std::vector<T> turned(const std::vector<T>& ring, std::size_t first) {
    std::vector<T> result(ring.begin() + static_cast<std::ptrdiff_t>(first), ring.end());
    result.insert(result.end(), ring.begin(), ring.begin() + static_cast<std::ptrdiff_t>(first));
    return result;
}

std::optional<WayRound> best_way_from_first(const FingerTable& table,
                                            const std::vector<Stop>& stops, Cost below) {
    const ForwardWalk walk(table, stops);
    if (walk.least() >= below) return std::nullopt;
    WayRound way{walk.way(), walk.least()};
    if (way.ids.front() == walk.end()) return way;
    std::optional<WayRound> best;
    way = mended(stops, std::move(way));
    if (way.cost < below) best = way;
    const Cost most = std::min(way.cost, below);
    // The less it may cost, the fewer grips are left.
    for (Cost seam = usual_seam;; seam *= 2) {
        Cost limit = std::min(most, walk.least() + seam);
        const bool is_all = limit == most;
        const Closing closing(table, stops, walk, limit);
        bool is_found = false;
        for (const auto& start : closing.starts()) {
            if (start.bound >= limit) break;
            if (auto found = closing.way_through(start.id, limit)) {
                limit = found->cost;
                best = std::move(found);
                is_found = true;
            }
        }
        if (is_found || is_all) return best;
    }
}

}  // namespace

Ids Ids::first(std::size_t count) {
    List ids(count);
    std::iota(ids.begin(), ids.end(), 0U);
    return ids;
}

Cost cost_of(const std::vector<Stop>& stops, const std::vector<std::uint32_t>& ids) {
    Cost cost = 0;
    for (std::size_t j = 0; j < stops.size(); ++j) {
        const std::size_t next = (j + 1) % stops.size();
        cost += stops[j].candidates->cost(ids[j]) +
                packed_reach(stops[j].candidates->packed(ids[j]),
                             stops[next].candidates->packed(ids[next]), stops[next].way_in);
    }
    return cost;
}

std::optional<WayRound> best_way(const FingerTable& table, const std::vector<Stop>& stops,
                                 std::optional<Cost> below) {
    assert(!stops.empty());
    // Begun where there is least to choose from, there are fewest beginnings to try.
    const auto first = static_cast<std::size_t>(
        std::min_element(stops.begin(), stops.end(), is_least_work) - stops.begin());
    auto way = best_way_from_first(table, turned(stops, first), below.value_or(never));
    if (way) way->ids = turned(way->ids, (stops.size() - first) % stops.size());
    return way;
}

}  // namespace compline::guitar
