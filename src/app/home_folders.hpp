#pragma once

#include <filesystem>
#include <optional>

namespace compline::app {

/// One of the folders of the XDG Base Directory Specification 0.8: that of its variable, where it
/// is an absolute path (others are to be ignored), else one below the home folder; none without a
/// home.
[[nodiscard]] std::optional<std::filesystem::path> base_folder(
    const char* variable, const std::filesystem::path& below_home);

/// Makes a folder and those above it; what is made belongs to the player alone (mode 0700, says the
/// specification), what is there stays as it is. Throws std::runtime_error.
void make_private(const std::filesystem::path& folder);

}  // namespace compline::app
