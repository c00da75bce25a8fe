#pragma once

#include "command.hpp"

#include <compline/settings/settings.hpp>

#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace compline::app {

// The settings file and the options that may stand in it: what a player would else type each
// evening. What is typed comes first, then what chart or take say, then a guitar's own settings,
// then the others, then what is usual.

/// $XDG_CONFIG_HOME/compline/settings.yaml, else in ~/.config (XDG Base Directory Specification
/// 0.8); none without a home.
[[nodiscard]] std::optional<std::filesystem::path> settings_path();

/// What stands there; empty where there is no file. Throws BadInput.
[[nodiscard]] std::string settings_text();

/// Where they are kept. Throws BadInput where there is no home to keep them in.
[[nodiscard]] std::filesystem::path path_of_settings();

/// Writes them, for the player alone; the folder is made.
void save_settings(const std::string& text);

/// The option that passes the settings over, as commands have it that read them.
inline constexpr const char* no_settings_option = "--no-settings";

/// The options of a command that are settings too, those among them that it reads from there alone.
[[nodiscard]] std::vector<Option> settings_of(const ProgramCommand& command);

/// The keys of all commands that read them.
[[nodiscard]] settings::KnownKeys settings_keys(const std::vector<ProgramCommand>& commands);

/// Throws BadInput for a value that one who reads it does not take: the value of one key may be
/// asked for by several commands.
void refuse_value(const std::vector<ProgramCommand>& commands, const settings::Setting& changed);

/// The player's settings; none where there is no file. Throws settings::SettingsError, BadInput.
[[nodiscard]] settings::AllSettings load_settings(const settings::KnownKeys& keys);

/// The guitar whose settings hold: the one that was asked for, else the one that comes by that
/// port, else the one that is set; empty: none of them. Throws BadInput for a name that there is
/// not.
[[nodiscard]] std::string guitar_meant(const std::string& asked, const std::string& port,
                                       const settings::AllSettings& settings);

/// Hands a command what its player has settled and did not type. `typed`: the names of the options
/// that were; `guitar`: the guitar asked for. Throws BadInput naming a value's place in the file.
void apply_settings(const ProgramCommand& command, const settings::AllSettings& settings,
                    const std::set<std::string>& typed, const std::string& guitar);

}  // namespace compline::app
