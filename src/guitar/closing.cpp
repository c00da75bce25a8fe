#include "closing.hpp"

#include <algorithm>

namespace compline::guitar {

Closing::Closing(const FingerTable& table, const std::vector<Stop>& stops, const ForwardWalk& walk,
                 Cost limit)
    : table_(table), stops_(stops), walk_(walk), limit_(limit), left_(stops.size()) {
    Reckoned ahead;
    const auto& first = stops_.front().ids;
    for (std::size_t i = 0; i < first.size(); ++i) {
        if (walk_.to_home(i) < limit) ahead.ids.push_back(first[i]);
    }
    ahead.costs.assign(ahead.ids.size(), {0, true});
    for (auto j = stops_.size(); j-- > 0;) {
        left_[j] = step_back(j, ahead);
        ahead = left_[j];
        for (std::size_t i = 0; i < ahead.ids.size(); ++i) {
            ahead.costs[i].cost += own_cost(j, ahead.ids[i]);
        }
    }
}

/// `ahead`: the next stop's, their own costs included.
Reckoned Closing::step_back(std::size_t j, const Reckoned& ahead) const {
    const auto& stop = stops_[j];
    const auto& next = stops_[(j + 1) % stops_.size()];
    const Front front(table_, *next.candidates, ahead.ids, ahead.costs);
    FrontSearch search(front, next.way_in, Direction::backward);
    Reckoned left;
    for (std::size_t i = 0; i < stop.ids.size(); ++i) {
        const auto id = stop.ids[i];
        const auto known = search.find(stop.candidates->packed(id), limit_ - walk_.to(j, i));
        if (known.cost >= never) continue;
        left.ids.push_back(id);
        left.costs.push_back(known);
    }
    return left;
}

std::vector<Closing::Start> Closing::starts() const {
    std::vector<Start> starts;
    const auto& left = left_.front();
    for (std::size_t i = 0; i < left.ids.size(); ++i) {
        const auto id = left.ids[i];
        const Cost home = walk_.to_home(place_in(stops_.front().ids.list(), id));
        const Cost bound = std::max(home, left.costs[i].cost + own_cost(0, id));
        if (bound < limit_) starts.push_back({bound, id});
    }
    std::sort(starts.begin(), starts.end());
    return starts;
}

std::optional<WayRound> Closing::way_through(std::uint32_t start, Cost limit) const {
    const auto n = stops_.size();
    Reckoned reached{{start}, {{own_cost(0, start), true}}};
    std::vector<std::vector<std::uint32_t>> from(n);
    for (std::size_t j = 1; j < n; ++j) {
        const Front front(table_, *stops_[j - 1].candidates, reached.ids, reached.costs);
        if (front.empty()) return std::nullopt;
        FrontSearch search(front, stops_[j].way_in, Direction::forward);
        reached = left_[j];
        for (std::size_t i = 0; i < reached.ids.size(); ++i) {
            const auto id = reached.ids[i];
            const Cost own = own_cost(j, id);
            auto& known = reached.costs[i];
            known = search.find(stops_[j].candidates->packed(id), limit - known.cost - own);
            if (known.cost < never) known.cost += own;
            from[j].push_back(search.found());
        }
    }
    const Front front(table_, *stops_[n - 1].candidates, reached.ids, reached.costs);
    if (front.empty()) return std::nullopt;
    FrontSearch search(front, stops_.front().way_in, Direction::forward);
    const auto closed = search.find(stops_.front().candidates->packed(start), limit);
    if (closed.cost >= never) return std::nullopt;
    return WayRound{traced_back(n, search.found(),
                                [&](std::size_t j, std::uint32_t id) {
                                    return from[j][place_in(left_[j].ids, id)];
                                }),
                    closed.cost};
}

}  // namespace compline::guitar
