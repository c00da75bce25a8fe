#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::tests {

/// What makes a text no well-formed XML; nothing where it is: tags that do not close or cross,
/// attributes without quotes or given twice, bare & and <, characters that XML has not.
std::optional<std::string> markup_fault(std::string_view text);

/// How often a part stands in a text.
int count_of(std::string_view text, std::string_view part);

}  // namespace compline::tests
