#include "live/practice_process.hpp"

#include <cstdlib>
#include <filesystem>

namespace compline::tests {

namespace {

std::vector<std::string> words_for(const std::string& command,
                                   const std::vector<std::string>& arguments,
                                   const TemporaryFolder& folder) {
    // Takes of the tests do not belong among the player's.
    ::setenv("XDG_DATA_HOME", folder.file("data").c_str(), 1);
    ::setenv("XDG_CONFIG_HOME", folder.file("config").c_str(), 1);
    std::vector<std::string> words{COMPLINE_PROGRAM, command};
    words.insert(words.end(), arguments.begin(), arguments.end());
    return words;
}

}  // namespace

PracticeProcess::PracticeProcess(const std::vector<std::string>& arguments,
                                 std::optional<int> terminal, const std::string& command)
    : program_(words_for(command, arguments, folder_),
               {folder_.file("out"), folder_.file("err"), terminal}) {}

Ran PracticeProcess::wait(double seconds) {
    const int status = program_.wait(seconds);
    return {status, files::load_text(folder_.file("out")), err()};
}

std::string PracticeProcess::settings() const {
    const auto file = folder_.file("config") / "compline" / "settings.yaml";
    return std::filesystem::exists(file) ? files::load_text(file) : "none";
}

std::string PracticeProcess::err() const { return files::load_text(folder_.file("err")); }

}  // namespace compline::tests
