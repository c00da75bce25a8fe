#pragma once

#include <compline/settings/settings.hpp>

#include <string>
#include <vector>

namespace compline::app {

/// Settings that are to be kept: of a guitar, or of none. An empty value takes one out.
struct SettingsOf {
    std::string guitar;
    std::vector<settings::Setting> changed;
};

/// Writes them into the player's settings file, all or none. Throws BadInput for a key that there
/// is not, a value that its readers refuse or a file that is to be changed by hand;
/// settings::SettingsError; files::FileError.
void keep_settings(const std::vector<SettingsOf>& all);

}  // namespace compline::app
