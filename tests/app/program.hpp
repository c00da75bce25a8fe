#pragma once

// The real program, run as a player would: arguments in, status and words out.

#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

namespace compline::tests {

struct Ran {
    int status = 0;
    std::string out;  ///< standard output
    std::string err;  ///< standard error
};

/// Where no settings are: those of whoever runs the tests are nobody's business, nor are their
/// takes, unless a test has made a folder for its own. Below a file nobody makes folders, root
/// neither.
inline constexpr const char* no_settings_folder = "/dev/null/settings";
inline constexpr const char* own_data_or_none = "XDG_DATA_HOME=${XDG_DATA_HOME:-/dev/null/data} ";

/// `config`: the folder in which settings are looked for.
inline std::string command_line(const std::vector<std::string>& arguments,
                                const std::string& config = no_settings_folder) {
    std::string line = own_data_or_none + std::string("XDG_CONFIG_HOME=") + shell_quote(config) +
                       " " + shell_quote(COMPLINE_PROGRAM);
    for (const auto& argument : arguments) line += " " + shell_quote(argument);
    return line;
}

/// compline with these arguments.
inline Ran run_compline(const std::vector<std::string>& arguments,
                        const std::string& config = no_settings_folder) {
    const TemporaryFolder folder;
    const auto out = folder.file("out");
    const auto err = folder.file("err");
    const auto ran = run(command_line(arguments, config) + " >" + shell_quote(out.string()) +
                         " 2>" + shell_quote(err.string()));
    return {ran.status, files::load_text(out), files::load_text(err)};
}

/// Shown when a check fails.
inline std::string shown(const Ran& ran) {
    return "status " + std::to_string(ran.status) + "\nout: " + ran.out + "\nerr: " + ran.err;
}

inline bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

inline std::string our_chart(const std::string& name) {
    return fmt::format("{}/charts/{}.yaml", COMPLINE_SOURCE_DIR, name);
}

inline std::string blues() { return our_chart("blue-kettle-on-the-back-stairs"); }

/// A file of this text in the folder; its path.
inline std::string text_file(const TemporaryFolder& folder, const std::string& name,
                             const std::string& text) {
    files::save_text(folder.file(name), text, files::Existing::replace);
    return folder.file(name).string();
}

inline std::string bytes_file(const TemporaryFolder& folder, const std::string& name,
                              const std::vector<std::uint8_t>& bytes) {
    files::save_bytes(folder.file(name), bytes, files::Existing::replace);
    return folder.file(name).string();
}

/// Nothing that could steer a terminal: no control characters but the end of a line.
inline bool is_safe(const std::string& text) {
    return std::none_of(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) < 0x20 && c != '\n') || c == 0x7F;
    });
}

}  // namespace compline::tests
