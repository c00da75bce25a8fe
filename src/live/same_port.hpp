#pragma once

#include <optional>
#include <string>
#include <vector>

namespace compline::live {

/// Which of the ports that are there now is the one that was opened: that of its name, or one that
/// differs by ALSA's numbers alone and is none of the others that were there when it went.
[[nodiscard]] std::optional<std::string> same_port(const std::string& opened,
                                                   const std::vector<std::string>& there,
                                                   const std::vector<std::string>& others);

}  // namespace compline::live
