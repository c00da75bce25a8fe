#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace compline::tests {

/// Runs SQL on a database file, beside what is tested; it fails the test where that goes wrong.
void run_sql(const std::filesystem::path& file, const std::string& sql);
/// The number that a query gives.
std::int64_t ask_sql(const std::filesystem::path& file, const std::string& sql);

}  // namespace compline::tests
