#pragma once

#include "command.hpp"

#include <compline/yaml/bad_file.hpp>

#include <string>
#include <vector>

namespace compline::app {

// Folders of takes: what a pupil has played, in one place.

[[nodiscard]] bool is_folder(const std::string& path);

/// The takes of a folder (*.mid; what is hidden or in folders below it is passed over), by their
/// names. Throws BadInput where there is none or nobody may look.
[[nodiscard]] std::vector<std::string> takes_in(const std::string& folder);

/// What is wrong with one of several is said and makes the status; the others go on.
template <typename Action>
void attempt(Status& status, Action action) {
    try {
        action();
    } catch (const yaml::BadFile& error) {
        say(error.what());
        status = Status::bad_input;
    } catch (const BadInput& error) {
        say(error.what());
        status = Status::bad_input;
    }
}

}  // namespace compline::app
