#pragma once

#include "least_squares.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace compline::practice {

/// A pair as the fit sees it, in milliseconds.
struct DelayRow {
    std::size_t place = 0;  ///< of its string among those measured, from 0
    double cycle_ms = 0;    ///< length of a cycle of its wave
    double delay_ms = 0;
    double weight = 1;
};

/// Delays of pairs by a common constant, cycles, and the constants that some strings add.
struct DelayModel {
    std::vector<std::size_t> own;       ///< places of the strings with a difference
    bool common = true;                 ///< there is a common constant
    std::optional<double> cycles_held;  ///< not fitted, but known

    /// What a row has of each parameter: the common constant, the cycles, a constant each.
    [[nodiscard]] std::vector<double> row_of(std::size_t place, double cycle_ms) const;
    [[nodiscard]] std::size_t parameters() const { return row_of(0, 0).size(); }
};

/// A model and what came out.
struct DelayFit {
    DelayModel model;
    LeastSquares::Solution solution;

    [[nodiscard]] double cycles() const;
    [[nodiscard]] double at(std::size_t place, double cycle_ms) const;
    [[nodiscard]] double off(const DelayRow& row) const {
        return row.delay_ms - at(row.place, row.cycle_ms);
    }
    /// The difference of the n-th string with one of its own.
    [[nodiscard]] double own(std::size_t n) const { return solution.values[before_own() + n]; }
    [[nodiscard]] double own_error(std::size_t n, double sd) const {
        return solution.error(before_own() + n, sd);
    }

  private:
    [[nodiscard]] std::size_t before_own() const {
        return (model.common ? 1U : 0U) + (model.cycles_held ? 0U : 1U);
    }
};

/// Nothing where the rows do not tell the parameters apart.
[[nodiscard]] std::optional<DelayFit> fit(const std::vector<DelayRow>& rows,
                                          const DelayModel& model);

/// The same with cycles held between 0 and `most`.
[[nodiscard]] std::optional<DelayFit> fit_within(const std::vector<DelayRow>& rows,
                                                 DelayModel model, double most);

}  // namespace compline::practice
