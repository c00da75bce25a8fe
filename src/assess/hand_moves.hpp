#pragma once

#include "judge.hpp"

#include <vector>

namespace compline::assess {

/// What the hand had to do for each change: how far it went, whether it came from a fill, which
/// strings it struck and what rang then; and whether a new section began there. Habits are made of
/// this.
void tell_hand_moves(const Evidence& evidence, std::vector<Change>& changes);

}  // namespace compline::assess
