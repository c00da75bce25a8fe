#include "settings_file.hpp"

#include "guitar_options.hpp"
#include "home_folders.hpp"

#include <compline/files/file_io.hpp>
#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <system_error>

namespace compline::app {

namespace fs = std::filesystem;

namespace {

void hand_over(const std::vector<Option>& options, const std::vector<settings::Setting>& values,
               const std::set<std::string>& typed) {
    for (const auto& value : values) {
        for (const auto& option : options) {
            if (option.setting->key != value.key || typed.count(option.name) > 0) continue;
            option.setting->read(fmt::format("{}: {}", value.place, value.key), value.value);
        }
    }
}

/// Throws BadInput where there is none of the name that was asked for.
const settings::OwnGuitar* named_guitar(const settings::AllSettings& settings,
                                        const std::string& name) {
    if (const auto* const guitar = settings.guitar(name)) return guitar;
    throw BadInput(fmt::format("{} {}", guitar_option, text::printable(name)),
                   settings::no_guitar(settings, name), "");
}

/// Asked only where it matters.
using PortName = std::function<std::string()>;

/// The guitar that comes by the port that is played through, as devices are chosen: by a part of
/// its name, whatever its capitals. None: the one that is set.
const settings::OwnGuitar* guitar_at_port(const PortName& port_name,
                                          const settings::AllSettings& settings) {
    const bool one_has_port = std::any_of(settings.guitars.begin(), settings.guitars.end(),
                                          [](const auto& one) { return !one.port.empty(); });
    if (!one_has_port || !port_name) return nullptr;
    const auto port = port_name();
    for (const auto& guitar : settings.guitars) {
        if (guitar.port.empty() || port.empty()) continue;
        if (text::has_but_for_capitals(port, guitar.port)) return &guitar;
    }
    return nullptr;
}

const settings::OwnGuitar* guitar_played(const PortName& port,
                                         const settings::AllSettings& settings,
                                         const std::string& asked) {
    if (!asked.empty()) return named_guitar(settings, asked);
    if (const auto* const plugged_in = guitar_at_port(port, settings)) return plugged_in;
    const auto* const usual = settings.find(settings::guitar_key);
    return usual == nullptr ? nullptr : settings.guitar(usual->value);
}

}  // namespace

std::optional<fs::path> settings_path() {
    auto folder = base_folder("XDG_CONFIG_HOME", ".config");
    if (!folder) return std::nullopt;
    return *folder / "compline" / "settings.yaml";
}

fs::path path_of_settings() {
    if (const auto path = settings_path()) return *path;
    throw BadInput("there is no home folder to keep settings in: set HOME or XDG_CONFIG_HOME");
}

void save_settings(const std::string& text) {
    const auto path = path_of_settings();
    make_private(path.parent_path());
    files::save_text(path, text, files::Existing::replace, files::Access::own);
}

std::string settings_text() {
    const auto path = settings_path();
    std::error_code unknown;  // then reading says why
    if (!path || fs::symlink_status(*path, unknown).type() == fs::file_type::not_found) return "";
    return files::load_text(*path, settings::most_bytes);
}

std::vector<Option> settings_of(const ProgramCommand& command) {
    std::vector<Option> settings;
    for (const auto* options : {&command.options, &command.settled}) {
        std::copy_if(options->begin(), options->end(), std::back_inserter(settings),
                     [](const Option& option) { return option.setting.has_value(); });
    }
    return settings;
}

settings::KnownKeys settings_keys(const std::vector<ProgramCommand>& commands) {
    settings::KnownKeys keys;
    const auto add = [](std::vector<std::string>& to, const std::string& key) {
        if (std::find(to.begin(), to.end(), key) == to.end()) to.push_back(key);
    };
    for (const auto& command : commands) {
        for (const auto& option : settings_of(command)) {
            add(keys.all, option.setting->key);
            if (option.setting->of_guitar) add(keys.of_guitar, option.setting->key);
        }
    }
    add(keys.all, settings::guitar_key);
    return keys;
}

void refuse_value(const std::vector<ProgramCommand>& commands, const settings::Setting& changed) {
    for (const auto& command : commands) {
        for (const auto& option : settings_of(command)) {
            if (option.setting->key == changed.key) {
                option.setting->read(changed.key, changed.value);
            }
        }
    }
}

settings::AllSettings load_settings(const settings::KnownKeys& keys) {
    const auto path = settings_path();
    if (!path) return {};
    return settings::read_settings(settings_text(), path->string(), keys);
}

std::string guitar_meant(const std::string& asked, const std::string& port,
                         const settings::AllSettings& settings) {
    const auto* const guitar = guitar_played([&] { return port; }, settings, asked);
    return guitar == nullptr ? "" : guitar->name;
}

void apply_settings(const ProgramCommand& command, const settings::AllSettings& settings,
                    const std::set<std::string>& typed, const std::string& guitar) {
    const auto options = settings_of(command);
    hand_over(options, settings.all, typed);
    if (const auto* const played = guitar_played(command.port, settings, guitar)) {
        hand_over(options, played->settings, typed);
    }
}

}  // namespace compline::app
