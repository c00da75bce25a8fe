#include "forward_walk.hpp"

#include <algorithm>
#include <cassert>

namespace compline::guitar {

namespace {

bool is_less(const Known& a, const Known& b) {
    return a.cost != b.cost ? a.cost < b.cost : a.exact && !b.exact;
}

}  // namespace

std::size_t place_in(const std::vector<std::uint32_t>& ids, std::uint32_t id) {
    return static_cast<std::size_t>(std::lower_bound(ids.begin(), ids.end(), id) - ids.begin());
}

ForwardWalk::ForwardWalk(const FingerTable& table, const std::vector<Stop>& stops, Cost slack)
    : table_(table),
      stops_(stops),
      outlook_(look_ahead(table, stops)),
      slack_(stops.size() + 1, slack) {
    while (reached_.size() <= stops_.size()) {
        reached_.push_back(reached_.empty() ? begin() : step());
        loosen_bounds();
    }
    const auto& home = reached_.back().knowns;
    const auto best = std::min_element(home.begin(), home.end(), is_less);
    assert(best != home.end() && best->exact);
    best_ = reached_.back().ids[static_cast<std::size_t>(best - home.begin())];
}

Known ForwardWalk::Reached::at(std::uint32_t id) const {
    const auto i = place_in(ids, id);
    return i < ids.size() && ids[i] == id ? knowns[i] : Known{bound, false};
}

/// Of one that is kept.
std::uint32_t ForwardWalk::Reached::before(std::uint32_t id) const {
    const auto i = place_in(ids, id);
    assert(i < ids.size() && ids[i] == id);
    return from[i];
}

std::vector<std::uint32_t> ForwardWalk::way() const {
    return traced_back(stops_.size(), reached_.back().before(best_),
                       [&](std::size_t j, std::uint32_t id) { return reached_[j].before(id); });
}

ForwardWalk::Reached ForwardWalk::begin() const {
    Reached reached;
    reached.ids = ids_of(0);
    for (const auto id : ids_of(0)) reached.knowns.push_back({own_cost(0, id), true});
    reached.known_way = outlook_.ahead.front();
    reached.bound = bound_here(reached.known_way);
    return reached;
}

/// From the stop that was reached last to the next one.
ForwardWalk::Reached ForwardWalk::step() const {
    const std::size_t j = reached_.size();
    const auto& before = reached_.back();
    const Front front(table_, *stop(j - 1).candidates, before.ids, before.knowns, before.bound);
    FrontSearch search(front, stop(j).way_in, Direction::forward);
    const Cost bound = bound_here(before.known_way);
    Reached reached;
    for (const auto id : ids_of(j)) {
        const Cost own = own_cost(j, id);
        auto known =
            search.find(stop(j).candidates->packed(id), std::min(before.bound + 1, bound - own));
        // From what lies beyond the bound it might cost less.
        const bool is_beyond = known.cost > before.bound;
        if (is_beyond) known = {before.bound, false};
        known.cost += own;
        if (known.cost >= bound) continue;
        reached.ids.push_back(id);
        reached.knowns.push_back(known);
        reached.from.push_back(is_beyond ? beyond : search.found());
    }
    reached.bound = bound;
    reached.known_way = std::min(before.known_way, way_on(j, reached, true).cost);
    reached.tighten(bound_here(reached.known_way));
    return reached;
}

/// Forgets what costs no less.
void ForwardWalk::Reached::tighten(Cost to) {
    bound = to;
    std::size_t kept = 0;
    for (std::size_t i = 0; i < ids.size(); ++i) {
        if (knowns[i].cost >= bound) continue;
        ids[kept] = ids[i];
        knowns[kept] = knowns[i];
        from[kept++] = from[i];
    }
    List(ids.begin(), ids.begin() + static_cast<std::ptrdiff_t>(kept)).swap(ids);
    List(from.begin(), from.begin() + static_cast<std::ptrdiff_t>(kept)).swap(from);
    std::vector<Known>(knowns.begin(), knowns.begin() + static_cast<std::ptrdiff_t>(kept))
        .swap(knowns);
}

/// The best way through what is reached of stop j, exactly or not, and on as the outlook has it.
ForwardWalk::WayOn ForwardWalk::way_on(std::size_t j, const Reached& reached, bool exact) const {
    const auto& likely = outlook_.likely[j];
    WayOn best;
    for (std::size_t n = 0; n < likely.ids.size(); ++n) {
        const auto id = likely.ids[n];
        const Cost ahead = likely.costs[n].cost - own_cost(j, id);
        const auto known = reached.at(id);
        if (known.exact == exact && known.cost + ahead < best.cost) best = {known.cost + ahead, id};
    }
    return best;
}

/// A grip that costs as much to reach can only be part of a bad way.
Cost ForwardWalk::bound_here(Cost known_way) const {
    const std::size_t j = reached_.size();
    return known_way + slack_[j] - (j < stops_.size() ? outlook_.ahead[j + 1] : 0);
}

/// If what has just been reached promises more than there may be, some bound was too tight.
void ForwardWalk::loosen_bounds() {
    const auto& reached = reached_.back();
    const auto promised = way_on(reached_.size() - 1, reached, false);
    if (promised.cost >= reached.known_way) return;
    const auto too_tight = bound_behind(promised.id);
    slack_[too_tight] *= 2;
    reached_.resize(too_tight);
}

/// The stop at whose bound the lower bound of a grip began.
std::size_t ForwardWalk::bound_behind(std::uint32_t id) const {
    std::size_t j = reached_.size() - 1;
    for (auto from = reached_[j].before(id); from != beyond; from = reached_[j].before(id)) {
        id = from;
        --j;
    }
    return j - 1;
}

}  // namespace compline::guitar
