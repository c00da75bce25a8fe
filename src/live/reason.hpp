#pragma once

#include <string>

namespace compline::live {

/// Why an API has no device: our words for the player, and the library's own beside them where it
/// gave any, for whoever has to look deeper.
[[nodiscard]] std::string reason(const std::string& ours, const std::string& library_said);

}  // namespace compline::live
