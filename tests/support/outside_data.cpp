#include "support/outside_data.hpp"

#include "support/catch.hpp"

#include <cstdlib>
#include <filesystem>

namespace compline::tests {

std::optional<std::string> outside_data(const std::string& relative_path) {
    const char* set = std::getenv("COMPLINE_DATA");
    const std::filesystem::path root =
        set != nullptr ? set
                       : std::filesystem::path(COMPLINE_SOURCE_DIR) / ".." / "shared" / "data";
    const auto file = root / relative_path;
    if (std::filesystem::exists(file)) return file.string();
    const char* required = std::getenv("COMPLINE_REQUIRE_DATA");
    if (required != nullptr && std::string(required) == "1") FAIL("outside data missing: " << file);
    WARN("SKIPPED: outside data not here: " << file << " (set COMPLINE_DATA)");
    return std::nullopt;
}

}  // namespace compline::tests
