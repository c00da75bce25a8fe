#pragma once

#include "command.hpp"

namespace compline::app {

/// Makes the history anew from the takes that are there, those of the takes folder and those that
/// it knows elsewhere, each judged by its own rules and by the judge of now. What it holds of takes
/// that are gone stays, and so does homework. A damaged history is set aside first, never removed.
/// Says what came of it. Throws BadInput without a home, history::HistoryError.
[[nodiscard]] Status rebuild_history();

/// How many takes lie among the player's while there is no history.
[[nodiscard]] std::size_t takes_without_history();

/// Says whether the file is whole.
[[nodiscard]] Status check_history();

}  // namespace compline::app
