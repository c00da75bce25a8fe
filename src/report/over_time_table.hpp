#pragma once

#include <compline/practice/over_time.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace compline::report {

using PlaceRows = std::vector<const practice::PlaceOverTime*>;

/// Places over evenings, as wide as a terminal at most.
struct OverTimeTable {
    std::string text;
    std::size_t joined = 1;  ///< evenings in the first column
};
/// A head with the days, the tempi and how much of all was right; then a line a place.
[[nodiscard]] OverTimeTable over_time_table(const practice::OverTime& over, const PlaceRows& rows);

}  // namespace compline::report
