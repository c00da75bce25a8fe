#pragma once

#include "command.hpp"
#include "forgettable.hpp"
#include "questions.hpp"

#include <string>
#include <vector>

namespace compline::app {

/// What is to be removed for good.
struct ToForget {
    std::vector<std::string> takes;  ///< files, or the names of files that were kept
    std::string player;              ///< all of a player's; empty: takes alone
    bool unasked = false;            ///< else a terminal is asked first
};

/// Shows what goes and asks. Whoever does not answer means no.
[[nodiscard]] bool is_meant(const Forgettable& what, Talk& talk);

/// Removes it from the history, and the files of takes where they lie among the player's own;
/// others stay. What goes is shown. Throws BadInput where nothing is called so, and where nobody is
/// there to be asked; history::HistoryError.
[[nodiscard]] Status forget(const ToForget& what);

}  // namespace compline::app
