#pragma once

#include <string>
#include <string_view>

namespace compline::text {

/// Text with its signs ♭ ♯ ♮ and their doubles written as letters: b, #, n, bb, ##. All else stays.
[[nodiscard]] std::string with_letters(std::string_view text);

}  // namespace compline::text
