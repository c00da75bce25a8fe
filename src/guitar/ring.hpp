#pragma once

#include "candidates.hpp"
#include "finger_table.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <iterator>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace compline::guitar {

// The exact way round a tune: one grip for each chord, the last leading back to the first, such
// that the sum of what grips and moves cost is the least there is.
//
// Forward, chord by chord, the best way to each grip is kept (a Bellman recursion, see
// forward_walk.hpp). That does not yet close the ring: the best way through may begin with one grip
// and lead back to another. So its cost bounds the answer from below, and the same way with its
// seam mended bounds it from above. A walk back (see closing.hpp) drops every grip through which no
// way lies below the upper bound, or below a guess first; of the few that are left, each that may
// still be the beginning is tried.

/// The grips of a stop that take part, by their numbers, ascending. Copies share the list: most
/// stops of a ring, and of the rings that are asked beside it, have one that another has too.
class Ids {
  public:
    using List = std::vector<std::uint32_t>;

    Ids() : Ids(List()) {}
    Ids(List ids) : ids_(std::make_shared<const List>(std::move(ids))) {}
    Ids(std::initializer_list<std::uint32_t> ids) : Ids(List(ids)) {}
    /// All of so many.
    [[nodiscard]] static Ids first(std::size_t count);

    [[nodiscard]] const List& list() const { return *ids_; }
    [[nodiscard]] bool empty() const { return ids_->empty(); }
    [[nodiscard]] std::size_t size() const { return ids_->size(); }
    [[nodiscard]] auto begin() const { return ids_->begin(); }
    [[nodiscard]] auto end() const { return ids_->end(); }
    [[nodiscard]] std::uint32_t operator[](std::size_t i) const { return (*ids_)[i]; }

    template <typename Iterator>
    void assign(Iterator first, Iterator last) {
        *this = Ids(List(first, last));
    }
    template <typename Predicate>
    void keep_if(Predicate predicate) {
        List kept;
        std::copy_if(begin(), end(), std::back_inserter(kept), predicate);
        if (kept.size() < size()) *this = Ids(std::move(kept));
    }

  private:
    std::shared_ptr<const List> ids_;
};

/// A chord of the ring: the grips it may have, and how much time there is to get there.
struct Stop {
    std::shared_ptr<const Candidates> candidates;
    Ids ids;       ///< those of them that take part; one at least
    WayIn way_in;  ///< the move that leads here
};

/// One grip for each stop.
struct WayRound {
    std::vector<std::uint32_t> ids;
    Cost cost = 0;
};

/// The best way round. Of several that cost the same it is always the same one. One stop at least.
/// `below`: only a way that costs less counts.
[[nodiscard]] std::optional<WayRound> best_way(const FingerTable& table,
                                               const std::vector<Stop>& stops,
                                               std::optional<Cost> below = std::nullopt);

/// What a way costs.
[[nodiscard]] Cost cost_of(const std::vector<Stop>& stops, const std::vector<std::uint32_t>& ids);

}  // namespace compline::guitar
