#include "outlook.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace compline::guitar {

namespace {

// What is likely, found by trying: wider, the look costs more than the exact walk saves by it;
// narrower, the exact walk has to loosen its bounds more often.
constexpr Cost dearer_grip = 150;       // than the cheapest of its stop
constexpr Cost dearer_way = 200;        // than the best of its stop
constexpr std::size_t most_kept = 100;  // of one stop
constexpr std::size_t sample = 8;       // one in so many is asked first, for an idea of the best

/// Forgets what costs no less than the limit.
void keep_below(Cost limit, Reckoned& reckoned) {
    auto& [ids, costs] = reckoned;
    std::size_t kept = 0;
    for (std::size_t i = 0; i < ids.size(); ++i) {
        if (costs[i].cost >= limit) continue;
        ids[kept] = ids[i];
        costs[kept++] = costs[i];
    }
    ids.resize(kept);
    costs.resize(kept);
}

void keep_the_best(std::size_t most, Reckoned& reckoned) {
    if (reckoned.ids.size() <= most) return;
    auto sorted = reckoned.costs;
    const auto last = sorted.begin() + static_cast<std::ptrdiff_t>(most - 1);
    std::nth_element(sorted.begin(), last, sorted.end(),
                     [](const Known& a, const Known& b) { return a.cost < b.cost; });
    keep_below(last->cost + 1, reckoned);
}

/// One step back: from the likely grips of the next stop to those of this one.
class StepBack {
  public:
    StepBack(const FingerTable& table, const Stop& stop, const Stop& next, const Reckoned& ahead)
        : stop_(stop),
          front_(table, *next.candidates, ahead.ids, ahead.costs),
          search_(front_, next.way_in, Direction::backward) {
        const auto& ids = stop.ids;
        Cost cheapest = never;
        for (const auto id : ids) cheapest = std::min(cheapest, own_cost(id));
        dearest_ = cheapest + dearer_grip;
        for (std::size_t i = 0; i < ids.size(); i += sample) (void)try_from(ids[i], 0);
        for (const auto id : ids) {
            const auto known = try_from(id, dearer_way);
            if (known.cost >= never) continue;
            likely_.ids.push_back(id);
            likely_.costs.push_back(known);
        }
        keep_below(least_ + dearer_way, likely_);
        keep_the_best(most_kept, likely_);
    }

    [[nodiscard]] Reckoned take_likely() { return std::move(likely_); }
    [[nodiscard]] Cost least() const { return least_; }

  private:
    [[nodiscard]] Cost own_cost(std::uint32_t id) const { return stop_.candidates->cost(id); }

    /// `never` where it is so much dearer than the best so far.
    [[nodiscard]] Known try_from(std::uint32_t id, Cost dearer) {
        const Cost own = own_cost(id);
        if (own > dearest_) return {};
        auto known = search_.find(stop_.candidates->packed(id), least_ + dearer - own);
        if (known.cost >= never) return {};
        known.cost += own;
        least_ = std::min(least_, known.cost);
        return known;
    }

    const Stop& stop_;
    Front front_;
    FrontSearch search_;
    Cost dearest_ = never;
    Cost least_ = never;
    Reckoned likely_;
};

}  // namespace

Outlook look_ahead(const FingerTable& table, const std::vector<Stop>& stops) {
    const auto n = stops.size();
    Outlook outlook;
    outlook.ahead.assign(n + 1, 0);
    outlook.likely.resize(n + 1);
    const auto& first = stops.front().ids.list();
    outlook.likely[n] = {first, std::vector<Known>(first.size(), {0, true})};
    for (std::size_t j = n; j-- > 0;) {
        StepBack step(table, stops[j], stops[(j + 1) % n], outlook.likely[j + 1]);
        outlook.ahead[j] = step.least();
        outlook.likely[j] = step.take_likely();
    }
    return outlook;
}

}  // namespace compline::guitar
