#include "last_evening.hpp"

#include "session_files.hpp"

#include <compline/files/file_io.hpp>
#include <compline/text/for_shell.hpp>
#include <compline/text/printable.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <string_view>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

namespace {

constexpr const char* kept_in = "last.json";
constexpr std::size_t most_bytes = std::size_t{1} << 20U;

/// A word that names a file of the folder in which it was typed, from another one.
std::string from_elsewhere(const std::string& word, const LastEvening& evening,
                           const std::string& folder) {
    if (evening.folder == folder || word.empty() || word.front() == '-') return word;
    std::error_code unknown;
    const fs::path file = fs::path(evening.folder) / word;
    return fs::is_regular_file(file, unknown) ? file.lexically_normal().string() : word;
}

/// An option needs no quotes; a chart whose name begins with a dash does.
std::string for_shell(const std::string& word) {
    constexpr std::string_view dashes = "--";
    if (text::has_control_characters(word)) return "...";
    const bool is_option = word.rfind(dashes, 0) == 0 && word.size() > dashes.size();
    return is_option ? std::string(dashes) + text::for_shell(word.substr(dashes.size()))
                     : text::for_shell(word);
}

}  // namespace

void remember(const LastEvening& evening) noexcept {
    try {
        const nlohmann::ordered_json json = {{"words", evening.words},
                                             {"folder", evening.folder},
                                             {"title", evening.title},
                                             {"made", evening.made}};
        const auto text =
            json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
        files::save_text(data_file(kept_in), text, files::Existing::replace, files::Access::own);
    } catch (const std::exception&) {
        return;
    }
}

void forget_evening_of(const std::string& player) noexcept {
    const auto last = last_evening();
    const auto folder = takes_folder();
    if (!last || !folder) return;
    const bool is_theirs = std::any_of(
        last->words.begin(), last->words.end(),
        [&](const std::string& word) { return word == player || word == "--player=" + player; });
    std::error_code stays;  // then it says no more than it did
    if (is_theirs) fs::remove(folder->parent_path() / kept_in, stays);
}

std::optional<LastEvening> last_evening() {
    try {
        const auto folder = takes_folder();
        if (!folder) return std::nullopt;
        const auto json =
            nlohmann::json::parse(files::load_text(folder->parent_path() / kept_in, most_bytes));
        return LastEvening{json.at("words").get<std::vector<std::string>>(),
                           json.at("folder").get<std::string>(),
                           json.at("title").get<std::string>(), json.at("made").get<std::string>()};
    } catch (const std::exception&) {
        return std::nullopt;
    }
}

std::string line_again(const LastEvening& evening, const std::string& folder) {
    std::string line = "compline";
    for (const auto& word : evening.words) {
        line += " " + for_shell(from_elsewhere(word, evening, folder));
    }
    return line;
}

}  // namespace compline::app
