#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace compline::report {

// Text on a terminal is measured in columns, not in bytes: a ♭ takes three bytes and one column.
// Escape sequences for bold and reverse (ESC [ ... m) take none.

/// Of a terminal that nobody has made wider: what is printed for all is no wider.
inline constexpr int terminal_columns = 80;

/// Columns that `text` (UTF-8) takes: one a code point, none for a combining mark, two for a
/// character of Chinese, Japanese or Korean script. The same in every locale.
[[nodiscard]] int columns_of(std::string_view text);

/// `text` where it fits into `columns` (1 or more), else its beginning and "…". What an escape
/// sequence switched on is switched off at the cut.
[[nodiscard]] std::string cut_to_columns(std::string_view text, int columns);

/// `text` and blanks, up to so many columns; a wider one stays as it is.
[[nodiscard]] std::string padded(const std::string& text, int columns);

/// `text` in lines of at most so many columns (1 or more), broken at its line feeds and at blanks.
/// A word that is wider has a line of its own, which is as wide.
[[nodiscard]] std::vector<std::string> in_lines(std::string_view text, int columns);

/// One line, broken where it is wider; what goes on below begins further in.
[[nodiscard]] std::string hanging(const std::string& line, int columns, std::size_t indent);

}  // namespace compline::report
