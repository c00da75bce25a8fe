#pragma once

#include <string_view>

namespace compline::live {

/// Names of APIs are typed in whatever case.
[[nodiscard]] bool same_name(std::string_view a, std::string_view b);

}  // namespace compline::live
