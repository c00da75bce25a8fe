#include "several_ways.hpp"

#include "closing.hpp"
#include "forward_walk.hpp"

#include <algorithm>
#include <iterator>
#include <queue>
#include <utility>

namespace compline::guitar {

namespace {

/// Part of all ways round, and the best of it.
struct Region {
    std::vector<Stop> stops;
    Way way;
    /// For a queue that gives the best first.
    bool operator<(const Region& other) const {
        return std::pair(other.way.cost, other.way.ids) < std::pair(way.cost, way.ids);
    }
};

/// Leaves a stop and those that echo it the grips of a shape, or all others; whether there are any.
bool keep_shape(std::vector<Stop>& stops, const Echoes& echoes, std::size_t j, std::uint64_t shape,
                bool with) {
    for (std::size_t i = j; i < stops.size(); ++i) {
        if (i != j && (echoes.empty() || echoes[i] != j)) continue;
        const auto& candidates = *stops[i].candidates;
        auto& ids = stops[i].ids;
        ids.erase(std::remove_if(ids.begin(), ids.end(),
                                 [&](std::uint32_t id) {
                                     return (candidates.shape_key(id) == shape) != with;
                                 }),
                  ids.end());
    }
    return !stops[j].ids.empty();
}

/// The other ways of a region: those that have the best one's shapes up to some stop and another
/// there (Lawler 1972; from memory).
void split(const FingerTable& table, const Region& region, const Echoes& echoes, Cost limit,
           std::priority_queue<Region>& queue) {
    auto stops = region.stops;
    for (std::size_t j = 0; j < stops.size(); ++j) {
        if (!echoes.empty() && echoes[j] != j) continue;  // it goes with the stop that it echoes
        const auto shape = stops[j].candidates->shape_key(region.way.ids[j]);
        auto others = stops;
        if (keep_shape(others, echoes, j, shape, false)) {
            if (auto way = best_echoing_way(table, others, echoes, limit))
                queue.push({std::move(others), std::move(*way)});
        }
        keep_shape(stops, echoes, j, shape, true);
    }
}

void add_ids(std::vector<std::uint32_t>& ids, const std::vector<std::uint32_t>& more) {
    std::vector<std::uint32_t> all;
    std::set_union(ids.begin(), ids.end(), more.begin(), more.end(), std::back_inserter(all));
    ids = std::move(all);
}

/// Stops that echo one another get the same grips, all that one of them has: each may take what is
/// best for another.
void share_grips(std::vector<Stop>& stops, const Echoes& echoes) {
    for (std::size_t j = 0; j < echoes.size(); ++j) {
        if (echoes[j] != j) add_ids(stops[echoes[j]].ids, stops[j].ids);
    }
    for (std::size_t j = 0; j < echoes.size(); ++j) stops[j].ids = stops[echoes[j]].ids;
}

/// The stops with those grips alone through which a way below the limit may lead.
std::vector<Stop> narrowed(const FingerTable& table, const std::vector<Stop>& stops, Cost limit) {
    const ForwardWalk walk(table, stops);
    const Closing closing(table, stops, walk, limit);
    auto narrow = stops;
    for (std::size_t j = 0; j < stops.size(); ++j) narrow[j].ids = closing.left()[j].ids;
    return narrow;
}

/// The same for a tune that repeats: its best way costs more than the free one, and what lies below
/// that cost are nearly all grips. So they are taken from the good free ways, a given way among
/// them.
std::vector<Stop> narrowed(const FingerTable& table, const std::vector<Stop>& stops,
                           const Echoes& echoes, const Way& first, Cost more) {
    const auto free_way = best_way(table, stops);
    auto narrow = narrowed(table, stops, free_way->cost + more);
    for (std::size_t j = 0; j < stops.size(); ++j) add_ids(narrow[j].ids, {first.ids[j]});
    share_grips(narrow, echoes);
    return narrow;
}

bool is_free(const Echoes& echoes) {
    for (std::size_t j = 0; j < echoes.size(); ++j) {
        if (echoes[j] != j) return false;
    }
    return true;
}

std::size_t grips_of(const std::vector<Stop>& stops) {
    std::size_t sum = 0;
    for (const auto& stop : stops) sum += stop.ids.size();
    return sum;
}

/// The best ways below a limit.
std::vector<Way> ways_below(const FingerTable& table, const std::vector<Stop>& stops,
                            const Echoes& echoes, const Way& first, Cost limit, std::size_t count) {
    std::priority_queue<Region> queue;
    queue.push({stops, first});
    std::vector<Way> ways;
    while (!queue.empty() && ways.size() < count) {
        const Region region = queue.top();
        queue.pop();
        if (region.way.cost >= limit) break;
        ways.push_back(region.way);
        if (ways.size() < count) split(table, region, echoes, limit, queue);
    }
    return ways;
}

}  // namespace

std::vector<Way> best_ways(const FingerTable& table, const std::vector<Stop>& stops, int count,
                           const Echoes& echoes) {
    const auto first = best_echoing_way(table, stops, echoes);
    if (!first) return {};
    if (count == 1) return {*first};
    const auto wanted = static_cast<std::size_t>(count);
    // Better few grips and the whole question again than all grips at once.
    for (Cost more = 50;; more *= 2) {
        const bool free = is_free(echoes);
        const Cost limit = first->cost + more;
        const auto narrow =
            free ? narrowed(table, stops, limit) : narrowed(table, stops, echoes, *first, more);
        const bool all = grips_of(narrow) == grips_of(stops);
        const Cost below = all || !free ? never : limit;
        auto ways = ways_below(table, narrow, echoes, *first, below, wanted);
        if (ways.size() < wanted && !all) continue;
        // With echoes a region's best need not be less than that of a part of it.
        std::stable_sort(ways.begin(), ways.end(),
                         [](const Way& a, const Way& b) { return a.cost < b.cost; });
        return ways;
    }
}

}  // namespace compline::guitar
