#pragma once

#include "sheet.hpp"

namespace compline::report {

constexpr double sign_size = 3.4;              ///< of words over a row
constexpr double sign_line = 4.4;              ///< the height of a line of them
constexpr double name_line = 1.2 * name_size;  ///< of the lowest where a long name stands in it
constexpr double mark_line = 2.3;              ///< of accents and fermatas, below the words
constexpr double coda_gap = 3;                 ///< before the coda

/// Puts over a placed row what its bars have to say, in as few lines as nothing overlaps, and
/// measures how high that is.
void put_over(SheetRow& row, const Sheet& sheet);

/// The base line of words in a line over a row, which stands at its `y`.
[[nodiscard]] double base_line(const SheetRow& row, int line);

/// The middle of a mark over a place of a bar: over the chord's root, at `share` 1 the last's.
[[nodiscard]] double mark_at(const PlacedBar& placed, double share, const Measures& measures);

}  // namespace compline::report
