#pragma once

#include <compline/assess/assessment.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace compline::assess {

// What changes may have in common, and what may be said against each.

/// When a chord comes is one matter, its tones are another: a place may be known for either. So are
/// coming in later in the bar, and not at all, which are no faults but where they are habits.
enum class HabitMatter { time, tones, waits, absences };

/// Changes that have something in common.
struct HabitGroup {
    HabitKind kind = HabitKind::place;
    std::vector<std::size_t> members;  ///< ascending
};

/// All groups of at least so many changes, kind after kind. A seam, what is uncertain and what was
/// played astray is in none.
[[nodiscard]] std::vector<HabitGroup> habit_groups(const std::vector<Change>& changes,
                                                   std::size_t fewest);

[[nodiscard]] bool is_judged_for_habits(const Change& change);

/// It was struck, or should have been: it can be late or missed.
[[nodiscard]] bool could_fail(const Change& change, HabitMatter matter);
/// What is held against each change in this matter, if anything.
[[nodiscard]] std::vector<std::optional<HabitFault>> faults_of(const std::vector<Change>& changes,
                                                               HabitMatter matter);
/// The part of the cost of a change that is at fault which is this matter's.
[[nodiscard]] double cost_of(const Change& change, HabitMatter matter);

/// Chords that a player thinks of as one kind, in the trade's words: "half-diminished".
[[nodiscard]] std::string quality_words(const harmony::Chord& chord);

}  // namespace compline::assess
