#pragma once

#include <cstddef>
#include <string_view>

namespace compline::yaml {

/// Where the quotes of a YAML text that opens at `start` (" or ') close; npos when nowhere. In
/// "..." a backslash takes the next character with it, in '...' two quotes in a row stand for one.
[[nodiscard]] std::size_t end_of_quotes(std::string_view text, std::size_t start);

}  // namespace compline::yaml
