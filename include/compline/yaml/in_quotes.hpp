#pragma once

#include <string>
#include <string_view>

namespace compline::yaml {

/// A text as a value of a YAML file: in double quotes, where nothing is taken for anything else.
[[nodiscard]] std::string in_quotes(std::string_view text);

}  // namespace compline::yaml
