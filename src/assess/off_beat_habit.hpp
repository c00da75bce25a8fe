#pragma once

#include <compline/assess/assessment.hpp>

#include <optional>
#include <vector>

namespace compline::assess {

/// Chords struck between beats lie before or after where the feel has them, against the player's
/// own on-beats; whatever is said of each of them.
[[nodiscard]] std::optional<Habit> off_beat_habit(const std::vector<ReadStrum>& strums);

}  // namespace compline::assess
