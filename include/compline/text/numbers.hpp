#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace compline::text {

// Numbers as players write them, the same in every locale: no exponent, no nan, no infinity, no
// hexadecimal, and never a part of the text.

/// Digits, and a point and digits if any ("132", "1.5"): no sign. At most 18 characters.
[[nodiscard]] std::optional<double> read_decimal(std::string_view text);

/// The same, with a sign if need be ("+8", "-0.5"); the digits before the point may be left out.
[[nodiscard]] std::optional<double> read_number(std::string_view text);

/// Digits only, up to 999,999,999.
[[nodiscard]] std::optional<int> read_count(std::string_view text);

/// A number to three decimals, without zeros at its end: "8", "3.2", "-11.354".
[[nodiscard]] std::string to_three_decimals(double number);

/// "1 to 100", "-0.5 to 0.5": a range as messages say it.
[[nodiscard]] std::string range_in_words(double least, double most);

}  // namespace compline::text
