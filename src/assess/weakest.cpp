#include "weakest.hpp"

#include <algorithm>

namespace compline::assess {

namespace {

constexpr int window_bars = 4;
constexpr int fewest_faults = 2;
constexpr double no_difference = 1e-9;  // sums of the same costs in another order

struct BarCost {
    double cost = 0;
    int faults = 0;
};

chart::Passage loop_around(const std::vector<BarCost>& bars, int from, int to, int first_bar) {
    const auto at = [&](int bar) { return bars[static_cast<std::size_t>(bar - first_bar)].cost; };
    int worst = from;
    for (int bar = from; bar <= to; ++bar) {
        if (at(bar) > at(worst) + no_difference) worst = bar;
    }
    // Arriving is what needs practice: give the hand a bar to come from.
    const bool lead_in = worst == from && from > 1;
    return {lead_in ? from - 1 : from, to};
}

}  // namespace

std::optional<Weakest> find_weakest(const std::vector<Change>& changes, chart::Passage passage) {
    std::vector<BarCost> bars(static_cast<std::size_t>(passage.bars()));
    for (const Change& change : changes) {
        if (change.seam || change.uncertain || change.cost() <= 0) continue;
        auto& bar = bars[static_cast<std::size_t>(change.bar - passage.from)];
        bar.cost += change.cost();
        ++bar.faults;
    }
    std::optional<Weakest> weakest;
    const int width = std::min(window_bars, passage.bars());
    for (int from = passage.from; from + width - 1 <= passage.to; ++from) {
        BarCost sum;
        for (int bar = from; bar < from + width; ++bar) {
            const auto& one = bars[static_cast<std::size_t>(bar - passage.from)];
            sum.cost += one.cost;
            sum.faults += one.faults;
        }
        const bool worse = !weakest || sum.cost > weakest->cost + no_difference;
        if (sum.faults < fewest_faults || !worse) continue;
        const int to = from + width - 1;
        weakest = Weakest{from, to, sum.cost, loop_around(bars, from, to, passage.from)};
    }
    return weakest;
}

}  // namespace compline::assess
