#include "keep_settings.hpp"

#include "guitar_options.hpp"
#include "settings_file.hpp"

#include <compline/text/printable.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace compline::app {

namespace {

void refuse_unknown(const std::string& key, const std::vector<std::string>& known,
                    const std::string& whose) {
    if (std::find(known.begin(), known.end(), key) != known.end()) return;
    const auto near = text::nearest(key, known);
    throw BadInput(fmt::format("there is no setting {}{}", text::printable(key), whose), "",
                   near ? fmt::format("did you mean {}?", *near)
                        : fmt::format("they are {}", fmt::join(known, ", ")));
}

void refuse_unknown_guitar(const settings::AllSettings& settings, const std::string& name) {
    if (name.empty() || settings.guitar(name) != nullptr) return;
    throw BadInput(
        "", settings::no_guitar(settings, name),
        fmt::format("describe it first: compline settings set port PORT {} NAME", guitar_option));
}

/// Refuses what no command would read.
void refuse_unreadable(const std::vector<ProgramCommand>& commands, const settings::KnownKeys& keys,
                       const std::string& guitar, const settings::Setting& changed) {
    auto known = guitar.empty() ? keys.all : keys.of_guitar;
    if (!guitar.empty()) known.emplace_back(settings::port_key);
    refuse_unknown(changed.key, known, guitar.empty() ? "" : ", of those that each guitar has");
    if (!changed.value.empty()) refuse_value(commands, changed);
}

}  // namespace

void keep_settings(const std::vector<SettingsOf>& all) {
    const auto commands = all_commands();
    const auto keys = settings_keys(commands);
    for (const auto& [guitar, changed] : all) {
        for (const auto& one : changed) refuse_unreadable(commands, keys, guitar, one);
    }
    const auto path = path_of_settings();
    auto text = settings_text();
    for (const auto& [guitar, changed] : all) {
        for (const auto& one : changed) {
            if (guitar.empty() && one.key == settings::guitar_key) {
                refuse_unknown_guitar(settings::read_settings(text, path.string(), keys),
                                      one.value);
            }
            text = settings::with_setting(text, path.string(), keys, guitar, one);
        }
    }
    save_settings(text);
}

}  // namespace compline::app
