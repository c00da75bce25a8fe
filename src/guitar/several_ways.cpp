#include "several_ways.hpp"

#include "closing.hpp"
#include "forward_walk.hpp"

#include <algorithm>
#include <iterator>
#include <queue>
#include <tuple>
#include <utility>

namespace compline::guitar {

namespace {

/// Leaves a stop and those that echo it the grips of a shape, or all others.
void keep_shape(std::vector<Stop>& stops, const Echoes& echoes, std::size_t j, std::uint64_t shape,
                bool with) {
    for (std::size_t i = j; i < stops.size(); ++i) {
        if (i != j && (echoes.empty() || echoes[i] != j)) continue;
        const auto& candidates = *stops[i].candidates;
        stops[i].ids.keep_if(
            [&](std::uint32_t id) { return (candidates.shape_key(id) == shape) == with; });
        if (echoes.empty()) break;
    }
}

void add_ids(Ids& ids, const Ids& more) {
    Ids::List all;
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
                           const Echoes& echoes, const WayRound& first, Cost more) {
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

/// What a way through each grip of a ring costs from there on at least, the grip not included, if
/// it leads back to one of these at home.
std::vector<std::vector<Known>> costs_on(const FingerTable& table, const std::vector<Stop>& stops,
                                         const Reckoned& home) {
    std::vector<std::vector<Known>> on(stops.size());
    Reckoned ahead{home.ids, std::vector<Known>(home.ids.size(), {0, true})};
    for (auto j = stops.size(); j-- > 0;) {
        const auto& next = stops[(j + 1) % stops.size()];
        const Front front(table, *next.candidates, ahead.ids, ahead.costs);
        FrontSearch search(front, next.way_in, Direction::backward);
        const auto& candidates = *stops[j].candidates;
        ahead = {stops[j].ids.list(), {}};
        for (const auto id : ahead.ids) {
            on[j].push_back(search.find(candidates.packed(id)));
            ahead.costs.push_back({on[j].back().cost + candidates.cost(id), true});
        }
    }
    return on;
}

/// The best ways of a ring: each is the best of a region of it, part of all ways round. What is
/// left of a region is split into others, those that have its best one's shapes up to some stop and
/// another there (Lawler 1972; from memory). Most of them have no way that is good enough, and what
/// a way there costs at least tells so: only the promising ones are asked for their best.
class Regions {
  public:
    Regions(const FingerTable& table, const Echoes& echoes, Cost below)
        : table_(table), echoes_(echoes), below_(below), is_free_(is_free(echoes)) {}

    std::vector<WayRound> best(const std::vector<Stop>& stops, const WayRound& first,
                               std::size_t count) {
        add_way(stops, first, count);
        while (!queue_.empty() && ways_.size() < count) {
            const Region region = queue_.top();
            queue_.pop();
            if (region.cost >= below_) break;
            if (region.ids.empty()) {
                ask(region);
            } else {
                add_way(stops_of(region), {region.ids, region.cost}, count);
            }
        }
        return std::move(ways_);
    }

  private:
    struct Region {
        Cost cost;          ///< of its best way; while that is not known, no way costs less
        Ids::List ids;      ///< its best way; none: not known yet
        std::size_t whole;  ///< the region that it is part of, by the way that was best there
        std::size_t stop;   ///< where it has other shapes than that way
        /// For a queue that gives the best first, of equals what is not known.
        bool operator<(const Region& other) const {
            return std::tie(other.cost, other.ids, other.whole, other.stop) <
                   std::tie(cost, ids, whole, stop);
        }
    };

    void add_way(std::vector<Stop> stops, WayRound way, std::size_t count) {
        ways_.push_back(std::move(way));
        wholes_.push_back(std::move(stops));
        if (ways_.size() < count) split();
    }

    static std::uint64_t shape(const Stop& stop, std::uint32_t id) {
        return stop.candidates->shape_key(id);
    }
    /// A stop that echoes another goes with it.
    [[nodiscard]] bool chooses(std::size_t j) const { return echoes_.empty() || echoes_[j] == j; }

    /// The parts of the region that gave a way last.
    void split() {
        const auto& stops = wholes_.back();
        const auto& way = ways_.back();
        Reckoned reached;  // with the way's shapes
        std::vector<std::vector<Known>> on;
        for (std::size_t j = 0; j < stops.size(); ++j) {
            const auto same = shape(stops[j], way.ids[j]);
            Reckoned here;
            Cost least = never;
            for (std::size_t i = 0; i < stops[j].ids.size(); ++i) {
                const auto id = stops[j].ids[i];
                const bool is_same = shape(stops[j], id) == same;
                if (!is_same && !chooses(j)) continue;
                const Cost cost = cost_to(stops, j, reached, id);
                if (is_same) {
                    here.ids.push_back(id);
                    here.costs.push_back({cost, true});
                } else {
                    least = std::min(least, j == 0 ? 0 : cost + on[j][i].cost);
                }
            }
            if (is_free_) least = std::max(least, way.cost);
            if (least < std::min(below_, never)) queue_.push({least, {}, ways_.size() - 1, j});
            reached = std::move(here);
            if (j == 0) on = costs_on(table_, stops, reached);
        }
    }

    /// Along the way's shapes to a grip, itself included.
    static Cost cost_to(const std::vector<Stop>& stops, std::size_t j, const Reckoned& reached,
                        std::uint32_t id) {
        const auto& stop = stops[j];
        Cost least = j == 0 ? 0 : never;
        for (std::size_t i = 0; i < reached.ids.size(); ++i) {
            const auto& before = stops[j - 1].candidates->packed(reached.ids[i]);
            least =
                std::min(least, reached.costs[i].cost +
                                    packed_reach(before, stop.candidates->packed(id), stop.way_in));
        }
        return least + stop.candidates->cost(id);
    }

    [[nodiscard]] std::vector<Stop> stops_of(const Region& region) const {
        auto stops = wholes_[region.whole];
        const auto& way = ways_[region.whole];
        for (std::size_t j = 0; j <= region.stop; ++j) {
            if (!chooses(j)) continue;
            keep_shape(stops, echoes_, j, shape(stops[j], way.ids[j]), j < region.stop);
        }
        return stops;
    }

    void ask(const Region& region) {
        if (auto way = best_echoing_way(table_, stops_of(region), echoes_, below_)) {
            queue_.push({way->cost, std::move(way->ids), region.whole, region.stop});
        }
    }

    const FingerTable& table_;
    const Echoes& echoes_;
    Cost below_;
    bool is_free_;
    std::vector<WayRound> ways_;
    std::vector<std::vector<Stop>> wholes_;  ///< by the ways that were best there
    std::priority_queue<Region> queue_;
};

}  // namespace

std::vector<WayRound> best_ways(const FingerTable& table, const std::vector<Stop>& stops, int count,
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
        auto ways = Regions(table, echoes, below).best(narrow, *first, wanted);
        if (ways.size() < wanted && !all) continue;
        // With echoes a region's best need not be less than that of a part of it.
        std::stable_sort(ways.begin(), ways.end(),
                         [](const WayRound& a, const WayRound& b) { return a.cost < b.cost; });
        return ways;
    }
}

}  // namespace compline::guitar
