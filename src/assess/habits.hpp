#pragma once

#include <compline/assess/assessment.hpp>

#include <vector>

namespace compline::assess {

/// Not struck it would be left out. By sound nobody knows whether the chord before is held on.
[[nodiscard]] inline bool could_be_left_out(const Change& change) {
    return !change.optional && change.heard_by == listen::HeardBy::midi;
}

/// Marks what is no matter of taste: places (or transitions) where the player waits most times and
/// comes in later in the bar, and places that are left out most times, while what is beside them
/// lands where it is due.
void mark_habits(std::vector<Change>& changes);

}  // namespace compline::assess
