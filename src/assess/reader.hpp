#pragma once

#include "entry_times.hpp"
#include "fit.hpp"
#include "reading_beam.hpp"
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
    /// All must outlive it. strums: how many were played.
    TakeReader(const Targets& targets, const Shifts& shifts, const Units& units, std::size_t strums,
               const Grid& grid, const Player& player);

    /// The nodes of the most likely reading, first strum first.
    [[nodiscard]] std::vector<PartialReading> best();

    /// So many targets stand whatever is played from `now` on; after best().
    [[nodiscard]] std::size_t settled(const std::vector<PartialReading>& best,
                                      time::Seconds now) const {
        return beam_.settled(best, times_, now);
    }

    [[nodiscard]] const EntryTimes& times() const { return times_; }
    [[nodiscard]] const FitTable& fits() const { return fits_; }

  private:
    void go_on(const ReadingBeam::Nodes& likely, std::uint32_t unit);
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
    ReadingBeam beam_;
    // Of the unit that is looked at.
    std::vector<double> landing_times_;
    double repeat_time_ = 0;
    std::size_t first_open_ = 0;  ///< targets before it are over
};

}  // namespace compline::assess
