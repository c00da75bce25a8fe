#pragma once

#include <filesystem>

namespace compline::files {

/// Remembers the name of a file that is about to be made, and is to be removed when a signal ends
/// the program (see remove_unfinished_files). nullptr when too many are remembered already: then
/// that file stays. Threads: any.
[[nodiscard]] const char* watch_unfinished(const std::filesystem::path& name);

/// Forgets it again. Does nothing with nullptr.
void forget_unfinished(const char* watched) noexcept;

}  // namespace compline::files
