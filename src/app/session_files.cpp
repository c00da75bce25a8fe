#include "session_files.hpp"

#include "command.hpp"
#include "home_folders.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <ctime>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

namespace {

constexpr const char* takes = "takes";

std::optional<fs::path> data_home() {
    return base_folder("XDG_DATA_HOME", fs::path(".local") / "share");
}

fs::path our_data() {
    if (const auto home = data_home()) return *home / "compline";
    throw BadInput("there is no home folder to keep the take in: say where by --take");
}

std::tm local(std::time_t moment) {
    std::tm time{};
    ::localtime_r(&moment, &time);
    return time;
}

std::tm now() { return local(std::time(nullptr)); }

std::string in_words(const std::tm& time) {
    const auto offset = fmt::format("{:%z}", time);  // +0100
    return fmt::format("{:%Y-%m-%dT%H:%M:%S}{}:{}", time, offset.substr(0, 3), offset.substr(3));
}

}  // namespace

std::optional<fs::path> takes_folder() {
    const auto home = data_home();
    if (!home) return std::nullopt;
    return *home / "compline" / takes;
}

std::vector<fs::path> own_take_files() {
    std::vector<fs::path> files;
    const auto folder = takes_folder();
    std::error_code unknown;  // no folder, no takes
    if (!folder) return files;
    for (const auto& entry : fs::directory_iterator(*folder, unknown)) {
        if (entry.path().extension() == ".mid") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

fs::path from_the_root(const fs::path& path) {
    std::error_code unknown;
    const auto whole = fs::absolute(path, unknown);
    return (unknown ? path : whole).lexically_normal();
}

fs::path data_file(const std::string& name) {
    const auto folder = our_data();
    make_private(folder);
    return folder / name;
}

std::string local_time_now() { return in_words(now()); }

std::string local_time_of(const fs::path& file) {
    struct stat status {};
    if (::stat(file.c_str(), &status) != 0) return "";
    return in_words(local(status.st_mtime));
}

std::string local_time_in(const fs::path& name) {
    const auto stem = name.stem().string();
    std::tm time{};
    const char* const end = ::strptime(stem.c_str(), "%Y-%m-%d-%H%M%S", &time);
    if (end == nullptr || (*end != '\0' && *end != '-')) return "";  // "-2": another run
    time.tm_isdst = -1;
    const std::time_t moment = std::mktime(&time);
    return moment == -1 ? "" : in_words(local(moment));
}

fs::path numbered(const fs::path& path, int run) {
    if (run == 1) return path;
    return path.parent_path() /
           fmt::format("{}-{}{}", path.stem().string(), run, path.extension().string());
}

fs::path new_take_path() {
    const fs::path folder = our_data() / takes;
    make_private(folder);
    const fs::path path = folder / fmt::format("{:%Y-%m-%d-%H%M%S}.mid", now());
    int run = 1;
    std::error_code unknown;
    while (fs::exists(numbered(path, run), unknown)) ++run;
    return numbered(path, run);
}

}  // namespace compline::app
