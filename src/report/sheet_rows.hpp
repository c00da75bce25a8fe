#pragma once

#include "sheet.hpp"

#include <optional>

namespace compline::report {

constexpr std::size_t most_bars = 4;  ///< a row, as a rule
constexpr double bar_padding = 0.8;
constexpr double meter_size = 6;  ///< of a time signature's numbers

/// Room at a bar's beginning for a time signature and a repeat sign, and at its end, more where a
/// double bar line stands.
[[nodiscard]] double padding_before(const SheetBar& bar);
[[nodiscard]] double padding_behind(const SheetBar& bar);

/// Bars of the sheet, by index, side by side; nothing where they do not fit.
[[nodiscard]] std::optional<SheetRow> make_row(const Sheet& sheet, std::size_t first,
                                               std::size_t count);
/// One bar too full even for a row of its own: symbols are squeezed.
[[nodiscard]] SheetRow crowded_row(const Sheet& sheet, std::size_t bar);

}  // namespace compline::report
