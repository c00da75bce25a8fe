#pragma once

#include <compline/history/history.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace compline::app {

// What is there of takes that are to be forgotten: in the history, and as files among the player's
// own.

struct Forgettable {
    std::vector<history::KnownTake> takes;     ///< in the history
    std::vector<std::filesystem::path> files;  ///< among the player's own takes
    std::size_t homework = 0;
    std::size_t elsewhere = 0;  ///< files of these takes that lie elsewhere: they stay
};

/// By their files or the names of these. Throws BadInput for a name that none has, or several.
[[nodiscard]] Forgettable takes_named(const std::vector<std::string>& names);

/// Throws BadInput where there is no such player.
[[nodiscard]] Forgettable all_of_player(const std::string& player);

/// "2026-11-03-193000.mid  Lantern Street, 3 November", one a take or file.
[[nodiscard]] std::vector<std::string> lines_of(const Forgettable& what);

}  // namespace compline::app
