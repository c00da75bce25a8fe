#pragma once

#include <optional>
#include <string>

namespace compline::tests {

/// A file of the outside data that lives beside the checkout (COMPLINE_DATA, else ../shared/data).
/// Absent: prints "SKIPPED: ..." and returns nothing, so that CTest shows the test as skipped;
/// with COMPLINE_REQUIRE_DATA=1 the test fails instead.
std::optional<std::string> outside_data(const std::string& relative_path);

}  // namespace compline::tests
