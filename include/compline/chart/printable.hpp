#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace compline::chart {

// How messages quote what they found. A chart, a file's name or a take may come from anywhere:
// nothing of it reaches a terminal unless it can be printed.

inline constexpr std::size_t longest_quotation = 40;

/// `text` with control, invisible and malformed characters written as <U+001B>, cut after `most`
/// code points.
[[nodiscard]] std::string printable(std::string_view text, std::size_t most = longest_quotation);

}  // namespace compline::chart
