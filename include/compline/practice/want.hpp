#pragma once

#include <compline/practice/evening.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace compline::practice {

/// What one key, or one switch of a pedal, asks for: a command, and what instead where something is
/// so already ("pause" of what is paused: go on).
struct Want {
    Command command;
    bool State::*already = nullptr;
    Command then = command;

    /// What that is now.
    [[nodiscard]] Command in(const State& state) const {
        return already != nullptr && state.*already ? then : command;
    }
    bool operator==(const Want&) const = default;
};

/// By the words a player says it with: "loop here", "pause", "drums"; none for others.
[[nodiscard]] std::optional<Want> want_named(std::string_view words);
/// All of these words, in the order in which they are told.
[[nodiscard]] std::vector<std::string> want_names();

}  // namespace compline::practice
