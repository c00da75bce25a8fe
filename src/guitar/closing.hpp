#pragma once

#include "forward_walk.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace compline::guitar {

/// What is left of a ring when a way round must cost less than some limit: a walk back drops every
/// grip through which none does. Each of the few beginnings that are left can be tried.
class Closing {
  public:
    /// The references must outlive this object.
    Closing(const FingerTable& table, const std::vector<Stop>& stops, const ForwardWalk& walk,
            Cost limit);

    /// What is left at each stop, and what the best way from there to the end costs.
    [[nodiscard]] const std::vector<Reckoned>& left() const { return left_; }

    struct Start {
        Cost bound;  ///< no way round from here costs less
        std::uint32_t id;
        auto operator<=>(const Start&) const = default;
    };
    /// The grips left at the first stop that may still be part of a way round, the likeliest first.
    [[nodiscard]] std::vector<Start> starts() const;

    /// The best way round through a grip of the first stop.
    [[nodiscard]] std::optional<WayRound> way_through(std::uint32_t start, Cost limit) const;

  private:
    [[nodiscard]] Reckoned step_back(std::size_t j, const Reckoned& ahead) const;
    [[nodiscard]] Cost own_cost(std::size_t j, std::uint32_t id) const {
        return stops_[j].candidates->cost(id);
    }

    const FingerTable& table_;
    const std::vector<Stop>& stops_;
    const ForwardWalk& walk_;
    Cost limit_;
    std::vector<Reckoned> left_;
};

}  // namespace compline::guitar
