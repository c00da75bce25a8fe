#pragma once

#include <string>
#include <string_view>

namespace compline::text {

/// A word for a POSIX shell: as it is when that is safe, else in single quotes. What a terminal
/// makes of control characters is for the caller to see to.
[[nodiscard]] std::string for_shell(std::string_view word);

}  // namespace compline::text
