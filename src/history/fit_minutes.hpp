#pragma once

#include <compline/history/advice.hpp>

#include <optional>
#include <vector>

namespace compline::history {

/// A thing, and what is needed to say how long it takes.
struct PlannedThing {
    Thing thing;
    int beats_a_bar = 4;
};

/// How long it takes, about.
[[nodiscard]] int minutes_of(const PlannedThing& planned);

/// The things, with their minutes; fewer or shorter where these are too many. One at least.
[[nodiscard]] std::vector<Thing> fitted(std::vector<PlannedThing> things,
                                        std::optional<int> minutes);

}  // namespace compline::history
