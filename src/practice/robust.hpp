#pragma once

#include "../assess/median.hpp"

#include <cmath>
#include <vector>

namespace compline::practice {

/// Standard deviations in a median deviation, for values of a normal distribution.
inline constexpr double in_a_median_deviation = 1.4826;

/// The standard deviation of values that lie around 0, by the median of their sizes: the few that
/// lie far off do not matter. 0 for none.
[[nodiscard]] inline double spread_around_zero(std::vector<double> values) {
    if (values.empty()) return 0;
    for (auto& value : values) value = std::fabs(value);
    return in_a_median_deviation * assess::median(std::move(values));
}

/// Beyond so many of these deviations a value is left out: of 10,000 that belong there, none.
inline constexpr double far_off = 4;

}  // namespace compline::practice
