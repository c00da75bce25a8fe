#include "ring.hpp"

#include "front.hpp"

#include <algorithm>
#include <cassert>
#include <queue>
#include <utility>

namespace compline::guitar {

namespace {

using Ids = std::vector<std::uint32_t>;
using Knowns = std::vector<Known>;  ///< one an id

/// Grips that are left at a stop, each with what the best way from there to the end costs.
struct Alive {
    Ids ids;
    Knowns costs;
};

/// The walks along a ring, forward from the first stop and back again.
///
/// Forward, few grips matter: those that cost not much more than the best of their stop. What lies
/// beyond a margin is known to lie there and is looked at no further. A way through it would cost
/// the margin at least, and what is found to cost less is exact all the same; should the margin
/// turn out too small to say so, it is doubled and the walk begins anew.
class Walks {
  public:
    Walks(const FingerTable& table, const std::vector<Stop>& stops) : table_(table), stops_(stops) {
        while (!walk_forward()) margin_ *= 2;
    }

    /// What the best way through costs that need not close: no way round costs less.
    [[nodiscard]] Cost least() const { return home_.least; }
    /// That way, with the grip that it leads back to. It closes when it began there.
    [[nodiscard]] Ids free_way() const {
        Ids ids(stops_.size());
        auto id = home_.best;
        for (auto j = stops_.size(); j-- > 0;) id = ids[j] = step_back(front(j), j, id);
        return ids;
    }
    [[nodiscard]] std::uint32_t free_end() const { return home_.best; }

    /// Drops every grip through which no way round costs less than the limit.
    void narrow(Cost limit) {
        const auto n = stops_.size();
        alive_.assign(n, {});
        Alive ahead{first_ids(), Knowns(first_ids().size())};
        for (std::size_t i = 0; i < home_.knowns.size(); ++i) {
            if (home_.knowns[i].cost < limit) ahead.costs[i] = {0, true};
        }
        for (auto j = n; j-- > 0;) {
            const std::size_t next = (j + 1) % n;
            const Front front(table_, *stops_[next].candidates, ahead.ids, ahead.costs);
            FrontSearch search(front, stops_[next].haste, Direction::backward);
            for (std::size_t i = 0; i < stops_[j].ids.size(); ++i) {
                const auto id = stops_[j].ids[i];
                const auto known = search.find(packed(j, id), limit - forward_[j].knowns[i].cost);
                if (known.cost >= never) continue;
                alive_[j].ids.push_back(id);
                alive_[j].costs.push_back(known);
            }
            ahead = alive_[j];
            for (std::size_t i = 0; i < ahead.ids.size(); ++i) {
                ahead.costs[i].cost += own_cost(j, ahead.ids[i]);
            }
        }
    }

    [[nodiscard]] const std::vector<Alive>& alive() const { return alive_; }

    struct Start {
        Cost bound;  ///< no way round from here costs less
        std::uint32_t id;
        auto operator<=>(const Start&) const = default;
    };
    /// The grips left at the first stop that may still be part of a way round, the likeliest first.
    [[nodiscard]] std::vector<Start> starts(Cost limit) const {
        std::vector<Start> starts;
        const auto& left = alive_.front();
        std::size_t home = 0;
        for (std::size_t i = 0; i < left.ids.size(); ++i) {
            const auto id = left.ids[i];
            while (first_ids()[home] != id) ++home;
            const Cost bound =
                std::max(home_.knowns[home].cost, left.costs[i].cost + own_cost(0, id));
            if (bound < limit) starts.push_back({bound, id});
        }
        std::sort(starts.begin(), starts.end());
        return starts;
    }

    /// The best way round through a grip of the first stop, among the grips that are left.
    [[nodiscard]] std::optional<Way> way_through(std::uint32_t start, Cost limit) const {
        std::vector<Front> fronts;
        fronts.reserve(stops_.size());
        fronts.emplace_back(table_, *stops_[0].candidates, Ids{start},
                            Knowns{{own_cost(0, start), true}});
        for (std::size_t j = 1; j < stops_.size(); ++j) {
            FrontSearch search(fronts.back(), stops_[j].haste, Direction::forward);
            Knowns knowns;
            knowns.reserve(alive_[j].ids.size());
            for (std::size_t i = 0; i < alive_[j].ids.size(); ++i) {
                const auto id = alive_[j].ids[i];
                const Cost own = own_cost(j, id);
                knowns.push_back(search.find(packed(j, id), limit - alive_[j].costs[i].cost - own));
                if (knowns.back().cost < never) knowns.back().cost += own;
            }
            fronts.emplace_back(table_, *stops_[j].candidates, alive_[j].ids, knowns);
            if (fronts.back().empty()) return std::nullopt;
        }
        FrontSearch search(fronts.back(), stops_.front().haste, Direction::forward);
        const auto closed = search.find(packed(0, start), limit);
        if (closed.cost >= never) return std::nullopt;
        Way way{Ids(stops_.size()), closed.cost};
        auto id = start;
        for (auto j = stops_.size(); j-- > 0;) id = way.ids[j] = step_back(fronts[j], j, id);
        return way;
    }

  private:
    static constexpr Cost usual_margin = 520;
    static constexpr std::size_t sample = 256;

    [[nodiscard]] const Ids& first_ids() const { return stops_.front().ids; }
    [[nodiscard]] Cost own_cost(std::size_t j, std::uint32_t id) const {
        return stops_[j].candidates->cost(id);
    }
    [[nodiscard]] const PackedGrip& packed(std::size_t j, std::uint32_t id) const {
        return stops_[j].candidates->packed(id);
    }

    /// What the walk knows of a stop.
    struct Reached {
        Knowns knowns;           ///< one an id
        Cost least = never;      ///< of these
        std::uint32_t best = 0;  ///< the id that it is of
        bool exact = true;       ///< nothing else costs less
        Cost margin = never;     ///< what is not known exactly costs this at least, or what it says
    };

    /// False where the margin was too small.
    [[nodiscard]] bool walk_forward() {
        forward_.clear();
        Reached begin;
        for (const auto id : first_ids()) begin.knowns.push_back({own_cost(0, id), true});
        settle(begin, first_ids());
        forward_.push_back(std::move(begin));
        for (std::size_t j = 1; j < stops_.size(); ++j) forward_.push_back(step(j, true));
        home_ = step(0, false);
        return home_.exact;
    }

    void settle(Reached& reached, const Ids& ids) const {
        for (std::size_t i = 0; i < ids.size(); ++i) {
            const auto& known = reached.knowns[i];
            if (known.cost > reached.least || (known.cost == reached.least && !known.exact)) {
                continue;
            }
            if (known.cost == reached.least && reached.exact) continue;
            reached.least = known.cost;
            reached.exact = known.exact;
            reached.best = ids[i];
        }
        reached.margin = reached.least + margin_;
    }

    /// From the stop before to all grips of this one; `own`: their own costs are added.
    [[nodiscard]] Reached step(std::size_t j, bool own) const {
        const auto& before = forward_.back();
        const Front from = front(forward_.size() - 1);
        const auto& start = packed(forward_.size() - 1, before.best);
        const auto& ids = stops_[j].ids;
        const auto own_of = [&](std::uint32_t id) { return own ? own_cost(j, id) : 0; };
        // From the best of the stop before some of this one, for a first idea of its best.
        Cost least = never;
        for (std::size_t i = 0; i < ids.size(); i += 1 + ids.size() / sample) {
            const Cost move = packed_reach(start, packed(j, ids[i]), stops_[j].haste);
            least = std::min(least, before.least + move + own_of(ids[i]));
        }
        FrontSearch search(from, stops_[j].haste, Direction::forward);
        Reached reached;
        reached.knowns.reserve(ids.size());
        for (const auto id : ids) {
            const Cost own_here = own_of(id);
            auto known = search.find(packed(j, id), least + margin_ - own_here);
            // Through what lies beyond the margin of the stop before it might cost less.
            if (known.cost > before.margin) known = {before.margin, false};
            known.cost += own_here;
            if (known.exact) least = std::min(least, known.cost);
            reached.knowns.push_back(known);
        }
        settle(reached, ids);
        for (auto& known : reached.knowns) {
            if (known.cost >= reached.margin) known = {reached.margin, false};
        }
        return reached;
    }

    [[nodiscard]] Front front(std::size_t j) const {
        return {table_, *stops_[j].candidates, stops_[j].ids, forward_[j].knowns,
                forward_[j].margin};
    }
    /// The grip of stop j from which the best way leads to this one of the next.
    [[nodiscard]] std::uint32_t step_back(const Front& front, std::size_t j,
                                          std::uint32_t id) const {
        const std::size_t next = (j + 1) % stops_.size();
        FrontSearch search(front, stops_[next].haste, Direction::forward);
        (void)search.find(packed(next, id));
        return search.found();
    }

    const FingerTable& table_;
    const std::vector<Stop>& stops_;
    Cost margin_ = usual_margin;    ///< the least of them
    std::vector<Reached> forward_;  ///< the best way to each grip, its own cost included
    Reached home_;                  ///< and back to each of the first stop, whose own is not
    std::vector<Alive> alive_;
};

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
    Walks walks(table, stops);
    if (walks.least() >= below) return std::nullopt;
    Way way{walks.free_way(), walks.least()};
    if (way.ids.front() == walks.free_end()) return way;
    std::optional<Way> best;
    Cost limit = below;
    way = mended(stops, std::move(way));
    if (way.cost < limit) {
        limit = way.cost;
        best = way;
    }
    walks.narrow(limit);
    for (const auto& start : walks.starts(limit)) {
        if (start.bound >= limit) break;
        if (auto found = walks.way_through(start.id, limit)) {
            limit = found->cost;
            best = std::move(found);
        }
    }
    return best;
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
    Walks walks(table, stops);
    walks.narrow(limit);
    auto narrow = stops;
    for (std::size_t j = 0; j < stops.size(); ++j) narrow[j].ids = walks.alive()[j].ids;
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
