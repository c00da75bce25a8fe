#include "ring.hpp"

#include "closing.hpp"
#include "forward_walk.hpp"

#include <algorithm>
#include <cassert>
#include <queue>
#include <utility>

namespace compline::guitar {

namespace {

/// Most rings close for a little more than the free way costs.
constexpr Cost usual_seam = 60;

/// A way that need not close is closed: the first grip is chosen anew, the others stay.
Way mended(const std::vector<Stop>& stops, Way way) {
    const auto& first = stops.front();
    const auto& second = stops[1 % stops.size()];
    const auto& before = stops.back().candidates->packed(way.ids.back());
    const auto& after = second.candidates->packed(way.ids[1 % stops.size()]);
    Cost least = never;
    for (const auto id : first.ids) {
        const auto& grip = first.candidates->packed(id);
        const Cost cost = packed_reach(before, grip, first.haste) + first.candidates->cost(id) +
                          packed_reach(grip, after, second.haste);
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

std::optional<Way> best_way_from_first(const FingerTable& table, const std::vector<Stop>& stops,
                                       Cost below) {
    const ForwardWalk walk(table, stops);
    if (walk.least() >= below) return std::nullopt;
    Way way{walk.way(), walk.least()};
    if (way.ids.front() == walk.end()) return way;
    std::optional<Way> best;
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

/// Part of all ways round, and the best of it.
struct Region {
    std::vector<Stop> stops;
    Way way;
    /// For a queue that gives the best first.
    bool operator<(const Region& other) const {
        return std::pair(other.way.cost, other.way.ids) < std::pair(way.cost, way.ids);
    }
};

/// The other ways of a region: those that have the best one's shapes up to some stop and another
/// there (Lawler 1972; from memory).
void split(const FingerTable& table, const Region& region, Cost limit,
           std::priority_queue<Region>& queue) {
    auto stops = region.stops;
    for (std::size_t j = 0; j < stops.size(); ++j) {
        const auto& candidates = *stops[j].candidates;
        const auto shape = candidates.shape_key(region.way.ids[j]);
        const auto has_shape = [&](std::uint32_t id) { return candidates.shape_key(id) == shape; };
        auto others = stops;
        auto& ids = others[j].ids;
        ids.erase(std::remove_if(ids.begin(), ids.end(), has_shape), ids.end());
        if (!ids.empty()) {
            if (auto way = best_way(table, others, limit))
                queue.push({std::move(others), std::move(*way)});
        }
        auto& same = stops[j].ids;
        same.erase(std::remove_if(same.begin(), same.end(),
                                  [&](std::uint32_t id) { return !has_shape(id); }),
                   same.end());
    }
}

/// The stops with those grips alone through which a way below the limit may lead.
std::vector<Stop> narrowed(const FingerTable& table, const std::vector<Stop>& stops, Cost limit) {
    const ForwardWalk walk(table, stops);
    const Closing closing(table, stops, walk, limit);
    auto narrow = stops;
    for (std::size_t j = 0; j < stops.size(); ++j) narrow[j].ids = closing.left()[j].ids;
    return narrow;
}

std::size_t grips_of(const std::vector<Stop>& stops) {
    std::size_t sum = 0;
    for (const auto& stop : stops) sum += stop.ids.size();
    return sum;
}

/// The best ways below a limit.
std::vector<Way> ways_below(const FingerTable& table, const std::vector<Stop>& stops,
                            const Way& first, Cost limit, std::size_t count) {
    std::priority_queue<Region> queue;
    queue.push({stops, first});
    std::vector<Way> ways;
    while (!queue.empty() && ways.size() < count) {
        const Region region = queue.top();
        queue.pop();
        if (region.way.cost >= limit) break;
        ways.push_back(region.way);
        if (ways.size() < count) split(table, region, limit, queue);
    }
    return ways;
}

}  // namespace

Cost cost_of(const std::vector<Stop>& stops, const std::vector<std::uint32_t>& ids) {
    Cost cost = 0;
    for (std::size_t j = 0; j < stops.size(); ++j) {
        const std::size_t next = (j + 1) % stops.size();
        cost += stops[j].candidates->cost(ids[j]) +
                packed_reach(stops[j].candidates->packed(ids[j]),
                             stops[next].candidates->packed(ids[next]), stops[next].haste);
    }
    return cost;
}

std::optional<Way> best_way(const FingerTable& table, const std::vector<Stop>& stops,
                            std::optional<Cost> below) {
    assert(!stops.empty());
    // Begun where there is least to choose from, there are fewest beginnings to try.
    const auto first = static_cast<std::size_t>(
        std::min_element(stops.begin(), stops.end(), is_least_work) - stops.begin());
    auto way = best_way_from_first(table, turned(stops, first), below.value_or(never));
    if (way) way->ids = turned(way->ids, (stops.size() - first) % stops.size());
    return way;
}

std::vector<Way> best_ways(const FingerTable& table, const std::vector<Stop>& stops, int count) {
    const auto first = best_way(table, stops);
    if (!first) return {};
    if (count == 1) return {*first};
    const auto wanted = static_cast<std::size_t>(count);
    // Better few grips and the whole question again than all grips at once.
    for (Cost more = 50;; more *= 2) {
        const Cost limit = first->cost + more;
        const auto narrow = narrowed(table, stops, limit);
        const bool all = grips_of(narrow) == grips_of(stops);
        auto ways = ways_below(table, narrow, *first, all ? never : limit, wanted);
        if (ways.size() == wanted || all) return ways;
    }
}

}  // namespace compline::guitar
