#include "take_folder.hpp"

#include "command.hpp"

#include <compline/files/file_io.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

namespace {

std::string folders_below(std::vector<std::string> folders) {
    if (folders.empty()) return "";
    std::sort(folders.begin(), folders.end());
    return fmt::format("; folders in it are not looked into: {}", text::listed(folders));
}

}  // namespace

bool is_folder(const std::string& path) {
    std::error_code unknown;
    return fs::is_directory(path, unknown);
}

std::vector<std::string> takes_in(const std::string& folder) {
    std::vector<std::string> takes;
    std::vector<std::string> below;
    std::error_code error;
    for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
        const auto name = at->path().filename().string();
        std::error_code unknown;
        if (name.front() == '.') continue;
        if (at->is_directory(unknown)) {
            below.push_back(files::name_of(name));
        } else if (at->path().extension() == ".mid" && !fs::is_other(at->status(unknown))) {
            takes.push_back(at->path().string());
        }
    }
    if (error) throw BadInput(files::name_of(folder), "the folder cannot be read", error.message());
    if (takes.empty()) {
        throw BadInput(files::name_of(folder), "there is no take in it (*.mid)",
                       "name a folder of takes, or takes" + folders_below(below));
    }
    std::sort(takes.begin(), takes.end());
    return takes;
}

}  // namespace compline::app
