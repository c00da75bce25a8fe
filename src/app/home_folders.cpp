#include "home_folders.hpp"

#include <compline/files/file_io.hpp>

#include <fmt/format.h>

#include <cstdlib>
#include <stdexcept>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

std::optional<fs::path> base_folder(const char* variable, const fs::path& below_home) {
    const char* folder = std::getenv(variable);
    if (folder != nullptr && fs::path(folder).is_absolute()) return folder;
    const char* home = std::getenv("HOME");
    if (home != nullptr && *home != '\0') return fs::path(home) / below_home;
    return std::nullopt;
}

void make_private(const fs::path& folder) {
    std::error_code error;
    if (fs::is_directory(folder, error)) return;
    const fs::path parent = folder.parent_path();
    if (parent != folder) make_private(parent);
    fs::create_directory(folder, error);
    if (!error) fs::permissions(folder, fs::perms::owner_all, error);
    if (!error) return;
    throw std::runtime_error(
        fmt::format("{}: the folder cannot be made: {}", files::name_of(folder), error.message()));
}

}  // namespace compline::app
