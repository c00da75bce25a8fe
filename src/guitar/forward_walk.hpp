#pragma once

#include "front.hpp"
#include "outlook.hpp"
#include "ring.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace compline::guitar {

/// The exact walk along a ring, from the first stop on and back to it: what the best way to each
/// grip costs. It need not close.
///
/// Few grips matter: those from which the way can still be a good one. For each stop there is a
/// bound: what the best way known so far costs (exact up to here, then as the outlook has it), less
/// what lies ahead at least. A grip that costs more to reach is taken to cost the bound, and
/// nothing to leave, which is never too much; nothing else is kept of it. So whatever is found is
/// exact or a lower bound, and known to be the one or the other. Where a lower bound promises a
/// better way than the best one known, the bound that it came from is loosened, and the walk goes
/// on from there. In the end the best way is exact.
class ForwardWalk {
  public:
    /// How far off the outlook may be. Found by trying: with less, bounds are loosened too often;
    /// with more, too much is looked at.
    static constexpr Cost usual_slack = 90;

    /// `slack` changes how long it takes, not what is found, and is at least 1. Both references
    /// must outlive this object.
    ForwardWalk(const FingerTable& table, const std::vector<Stop>& stops, Cost slack = usual_slack);

    /// What the best way costs: no way round costs less.
    [[nodiscard]] Cost least() const { return reached_.back().at(best_).cost; }
    /// That way, and the grip that it leads back to. It closes when it began there.
    [[nodiscard]] std::vector<std::uint32_t> way() const;
    [[nodiscard]] std::uint32_t end() const { return best_; }

    /// The i-th grip of stop j costs no less to reach, itself included.
    [[nodiscard]] Cost to(std::size_t j, std::size_t i) const {
        return reached_[j].at(ids_of(j)[i]).cost;
    }
    /// Nor does it cost less to come back to the i-th of the first stop, itself not included.
    [[nodiscard]] Cost to_home(std::size_t i) const { return to(stops_.size(), i); }

  private:
    using List = Ids::List;
    static constexpr std::uint32_t beyond = 0xFFFFFFFFU;

    /// What the walk knows of a stop.
    struct Reached {
        List ids;                   ///< that cost less than the bound; at the first stop all
        std::vector<Known> knowns;  ///< one an id
        List from;                  ///< the grip before; `beyond` the bound there
        Cost bound = never;         ///< to be reached
        Cost known_way = never;     ///< the best way known, up to here and on

        [[nodiscard]] Known at(std::uint32_t id) const;
        [[nodiscard]] std::uint32_t before(std::uint32_t id) const;
        void tighten(Cost to);
    };

    struct WayOn {
        Cost cost = never;
        std::uint32_t id = 0;  ///< that it leads through
    };

    // The ring's stops, and home, which is the first again.
    [[nodiscard]] const Stop& stop(std::size_t j) const { return stops_[j % stops_.size()]; }
    [[nodiscard]] const List& ids_of(std::size_t j) const { return stop(j).ids.list(); }
    [[nodiscard]] Cost own_cost(std::size_t j, std::uint32_t id) const {
        return j == stops_.size() ? 0 : stop(j).candidates->cost(id);
    }

    [[nodiscard]] Reached begin() const;
    [[nodiscard]] Reached step() const;
    [[nodiscard]] WayOn way_on(std::size_t j, const Reached& reached, bool exact) const;
    [[nodiscard]] Cost bound_here(Cost known_way) const;
    void loosen_bounds();
    [[nodiscard]] std::size_t bound_behind(std::uint32_t id) const;

    const FingerTable& table_;
    const std::vector<Stop>& stops_;
    Outlook outlook_;
    std::vector<Cost> slack_;       ///< how far off the outlook may be, by stop
    std::vector<Reached> reached_;  ///< by stop, as far as the walk has come
    std::uint32_t best_ = 0;        ///< the grip at home that costs least
};

/// A way of so many grips from its last one back; `from(j, id)` is the grip before that one.
template <typename From>
std::vector<std::uint32_t> traced_back(std::size_t grips, std::uint32_t last, From from) {
    std::vector<std::uint32_t> way(grips);
    way.back() = last;
    for (std::size_t j = grips - 1; j > 0; --j) way[j - 1] = from(j, way[j]);
    return way;
}

/// Where an id is; `ids` are ascending and have it.
[[nodiscard]] std::size_t place_in(const std::vector<std::uint32_t>& ids, std::uint32_t id);

}  // namespace compline::guitar
