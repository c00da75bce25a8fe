#pragma once

#include <optional>
#include <vector>

namespace compline::history {

// Kendall's S: of all pairs of values in order of time, how many rise, less how many fall. Where
// time does nothing, every order of the values is as likely, and S is spread as is computed here:
// for few values exactly, by counting orders; for many by the normal distribution. Values that are
// alike make no pair and narrow it (Kendall, Rank Correlation Methods, 1970, from memory).

/// Nearer than this, two values are alike: shares that were computed two ways.
inline constexpr double alike_within = 1e-9;

/// How many values are alike, group by group: {1, 1, 1} for three that differ.
[[nodiscard]] std::vector<int> groups_alike(std::vector<double> values);

/// For each number of falling pairs, from 0 on, the share of all orders that has it. S is the
/// number of pairs that are not alike, less twice that.
[[nodiscard]] std::vector<double> share_of_orders(const std::vector<int>& groups);

/// The least S that chance reaches or passes in one case of forty or fewer (as often falling: both
/// sides are the 5 % of a 95 % interval). None: so many are alike that chance often gives the
/// highest S there is.
[[nodiscard]] std::optional<int> critical_s(const std::vector<double>& values);

}  // namespace compline::history
