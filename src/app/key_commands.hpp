#pragma once

#include "key.hpp"

#include <compline/practice/evening.hpp>

#include <optional>

namespace compline::app {

// What a key asks for, of one hand that leaves the strings for a moment: the keys that are hit
// blindly (space, Home, the arrows) do what is wanted most.
//
//     space      pause; go on                 d   drums off; on
//     Home       from the top                 b   bass off; on
//     up, down   faster, slower               r   start over
//     l          loop here                    q   stop
//     w          whole tune: leave the loop   v   the other view: large, or the chart's rows
//
// Capitals do the same: nobody looks for the Caps Lock while playing.

/// None for a key that asks for nothing.
[[nodiscard]] std::optional<practice::Command> command_of(KeyPress key,
                                                          const practice::State& state);

/// v: it asks nothing of the band.
[[nodiscard]] bool asks_for_other_view(KeyPress key);

}  // namespace compline::app
