#pragma once

#include "month.hpp"

#include <optional>
#include <string>

namespace compline::month {

/// What month was asked for.
struct Arguments {
    std::string folder;
    Weeks weeks;
    std::optional<int> sessions;  ///< so many short takes over three years, in place of weeks
};

/// Nothing: all is said, and `status` is what to end with (0 after --help, 2 for bad usage).
[[nodiscard]] std::optional<Arguments> read_arguments(int argc, char** argv, int& status);

}  // namespace compline::month
