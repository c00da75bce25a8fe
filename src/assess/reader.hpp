#pragma once

#include "entry_times.hpp"
#include "fit.hpp"
#include "shifts.hpp"
#include "units.hpp"

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace compline::assess {

/// Finds the most likely way to read a take, by dynamic programming over its strums.
class TakeReader {
  public:
    static constexpr int nothing_yet = -1;

    /// One way to read the take up to a strum.
    struct PartialReading {
        double nats = 0;
        int chord = nothing_yet;  ///< the last change that has landed
        std::uint32_t shift = 0;  ///< where in the form the player believes to be
        std::int32_t before = -1;
        std::uint32_t unit = 0;
        ReadAs how = ReadAs::landing;
    };

    /// All must outlive it. strums: how many were played.
    TakeReader(const Targets& targets, const Shifts& shifts, const Units& units, std::size_t strums,
               const Grid& grid, const Player& player);

    /// The nodes of the most likely reading, first strum first.
    [[nodiscard]] std::vector<PartialReading> best();

    /// How many nodes of the best path all readings that are left agree on; after best().
    [[nodiscard]] std::size_t agreed() const;

    [[nodiscard]] const EntryTimes& times() const { return times_; }
    [[nodiscard]] const FitTable& fits() const { return fits_; }

  private:
    using Beam = std::vector<std::int32_t>;

    [[nodiscard]] const PartialReading& node(std::int32_t n) const {
        return nodes_[static_cast<std::size_t>(n)];
    }
    [[nodiscard]] std::int32_t likeliest() const;
    [[nodiscard]] double at_end(std::int32_t n) const;
    [[nodiscard]] double left_out(std::size_t from, std::size_t to) const;
    void narrow(Beam& beam) const;
    [[nodiscard]] double standing(std::int32_t n) const;
    void go_on(const Beam& beam, std::uint32_t unit);
    [[nodiscard]] std::pair<std::size_t, std::size_t> candidates(const Unit& unit);
    [[nodiscard]] double landing_time(const Unit& unit, std::size_t target) const;
    void land(std::int32_t n, std::uint32_t unit, std::size_t target, double nats);
    void land_elsewhere(std::int32_t n, std::uint32_t unit, std::size_t target, double nats);
    [[nodiscard]] bool is_old_grip(const PartialReading& before, const Unit& unit) const;
    [[nodiscard]] bool may_land(const Unit& unit, std::size_t target, const Fit& fit) const;
    [[nodiscard]] double manner(const Unit& unit) const;
    [[nodiscard]] double grip(const Unit& unit, std::size_t target, const Fit& fit) const;
    void read_otherwise(std::int32_t n, std::uint32_t unit);
    void read_in_hand(std::int32_t n, std::uint32_t unit);
    [[nodiscard]] bool is_foreign_to_next(const Unit& unit, const PartialReading& before) const;
    void add(std::int32_t n, std::uint32_t unit, std::size_t target, std::uint32_t shift,
             double nats);
    void stay(std::int32_t n, std::uint32_t unit, double nats, ReadAs how);
    void add(std::uint32_t unit, const PartialReading& node);

    const Targets& targets_;
    const Shifts& shifts_;
    const Units& units_;
    FitTable fits_;
    EntryTimes times_;
    double left_out_;                   ///< nats of a change that is not struck,
    double played_;                     ///< and of one that is
    std::vector<int> optional_before_;  ///< how many targets before each may be left out
    std::vector<PartialReading> nodes_;
    std::vector<Beam> ends_;  ///< nodes that have read so many strums
    // Of the unit that is looked at.
    std::vector<double> landing_times_;
    double repeat_time_ = 0;
    std::size_t first_open_ = 0;  ///< targets before it are over
};

}  // namespace compline::assess
