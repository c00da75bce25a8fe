#pragma once

#include <compline/time/units.hpp>

#include <optional>
#include <string>

namespace compline::jack {

inline constexpr time::Seconds longest(4 * 3600);  ///< of everything: what a WAV file holds

/// What jack_player was asked for.
struct Arguments {
    std::string take;
    std::string name = "player";
    std::string to;                         ///< empty: who listens connects itself
    std::string from;                       ///< empty: who plays connects itself
    std::string record;                     ///< empty: no file
    std::optional<time::Seconds> length;    ///< of the recording; none: the take and a second more
    std::optional<time::Seconds> count_in;  ///< none: the take's own
    time::Seconds patience = time::Seconds(60);  ///< for the ports and the first click
};

/// Nothing: all is said, and `status` is what to end with (0 after --help, 2 for bad usage).
[[nodiscard]] std::optional<Arguments> read_arguments(int argc, char** argv, int& status);

}  // namespace compline::jack
