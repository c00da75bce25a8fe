#pragma once

#include <optional>
#include <string_view>

namespace compline::chart {

// Numbers as players write them, the same in every locale.

/// Digits, and a point and digits if any: no sign, no exponent, no nan.
[[nodiscard]] std::optional<double> read_number(std::string_view text);

/// Digits only, up to 999,999,999.
[[nodiscard]] std::optional<int> read_count(std::string_view text);

}  // namespace compline::chart
