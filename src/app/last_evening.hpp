#pragma once

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

// What was practised last, to be offered again: one small file beside the takes.

struct LastEvening {
    std::vector<std::string> words;  ///< that were typed behind `compline`
    std::string folder;              ///< in which they were typed
    std::string title;               ///< of the tune
    std::string made;                ///< ISO 8601, local time with offset
};

/// A disk that is full spoils no evening: then nothing is remembered, and nothing said.
void remember(const LastEvening& evening) noexcept;

/// Where it was this player's, nothing is remembered any more.
void forget_evening_of(const std::string& player) noexcept;

/// None where nothing was practised yet, or nobody can read what stands there.
[[nodiscard]] std::optional<LastEvening> last_evening();

/// The line that does it again from this folder, ready for a shell.
[[nodiscard]] std::string line_again(const LastEvening& evening, const std::string& folder);

}  // namespace compline::app
