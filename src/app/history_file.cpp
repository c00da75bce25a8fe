#include "history_file.hpp"

#include "command.hpp"
#include "session_files.hpp"

#include <system_error>

namespace compline::app {

namespace {

constexpr const char* history_name = "history.db";

}  // namespace

std::optional<std::filesystem::path> history_file() {
    const auto takes = takes_folder();
    if (!takes) return std::nullopt;
    return takes->parent_path() / history_name;
}

std::optional<history::History> open_history() {
    const auto file = history_file();
    std::error_code unknown;
    if (!file || !std::filesystem::exists(*file, unknown)) return std::nullopt;
    return history::History(*file, history::History::Make::no);
}

history::History open_or_make_history() {
    if (!history_file()) throw BadInput("there is no home folder to keep it in");
    return history::History(data_file(history_name));
}

}  // namespace compline::app
