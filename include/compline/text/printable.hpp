#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace compline::text {

// How messages quote what they found. A chart, a file's name or a take may come from anywhere:
// nothing of it reaches a terminal unless it can be printed.

inline constexpr std::size_t longest_quotation = 40;

/// `text` with control, invisible and malformed characters written as <U+001B>, cut after `most`
/// code points.
[[nodiscard]] std::string printable(std::string_view text, std::size_t most = longest_quotation);

/// What can be printed of `text`, in quotes, of the usual length.
[[nodiscard]] std::string quoted(std::string_view text);

/// Text of several lines made safe for a terminal: printable() on each of them, uncut.
[[nodiscard]] std::string printable_lines(std::string_view text);

/// Whether a terminal might take any of it for more than text to print: C0, DEL, C1.
[[nodiscard]] bool has_control_characters(std::string_view text);

}  // namespace compline::text
