#include "leftovers.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <string_view>
#include <system_error>

namespace compline::files {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view prefix = ".compline-";
constexpr std::string_view suffix = ".part";
constexpr time_t a_day = time_t{24} * 60 * 60;  ///< no file takes that long

bool is_number(std::string_view text) {
    return !text.empty() &&
           std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// .compline-PROCESS-COUNT.part
bool is_unfinished_name(std::string_view name) {
    if (name.size() < prefix.size() + suffix.size()) return false;
    if (!name.starts_with(prefix) || !name.ends_with(suffix)) return false;
    name.remove_prefix(prefix.size());
    name.remove_suffix(suffix.size());
    const auto dash = name.find('-');
    return dash != std::string_view::npos && is_number(name.substr(0, dash)) &&
           is_number(name.substr(dash + 1));
}

}  // namespace

std::string next_unfinished_name() {
    static std::atomic<unsigned> count{0};
    return fmt::format("{}{}-{}{}", prefix, ::getpid(), count++, suffix);
}

void clear_leftovers(const fs::path& folder, const struct stat& made) {
    std::error_code error;
    fs::directory_iterator entry(folder, error);
    for (; !error && entry != fs::directory_iterator(); entry.increment(error)) {
        if (!is_unfinished_name(entry->path().filename().native())) continue;
        struct stat found {};
        if (::lstat(entry->path().c_str(), &found) != 0 || !S_ISREG(found.st_mode)) continue;
        const bool is_old = found.st_mtime < made.st_mtime - a_day;
        if (is_old && found.st_uid == made.st_uid) ::unlink(entry->path().c_str());
    }
}

}  // namespace compline::files
