#pragma once

#include <compline/history/history.hpp>

#include <filesystem>
#include <optional>

namespace compline::app {

/// Where the history lies, beside the takes; none without a home. It may not be there.
[[nodiscard]] std::optional<std::filesystem::path> history_file();

/// The history as it is; none where nothing was kept yet. Throws HistoryError, BadInput.
[[nodiscard]] std::optional<history::History> open_history();

/// ... made where it is not there, with its folder. Throws as above, and BadInput without a home.
[[nodiscard]] history::History open_or_make_history();

}  // namespace compline::app
