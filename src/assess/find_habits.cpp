#include "habit_search.hpp"
#include "off_beat_habit.hpp"

#include <compline/assess/assessment.hpp>

#include <algorithm>
#include <iterator>

namespace compline::assess {

namespace {

constexpr std::size_t fewest_changes = 3;

void append(std::vector<Habit> more, std::vector<Habit>& habits) {
    std::move(more.begin(), more.end(), std::back_inserter(habits));
}

}  // namespace

std::vector<Habit> find_habits(const std::vector<Change>& changes,
                               const std::vector<ReadStrum>& strums) {
    const auto groups = habit_groups(changes, fewest_changes);
    std::vector<Habit> habits;
    if (auto off_beats = off_beat_habit(strums)) habits.push_back(std::move(*off_beats));
    for (const auto matter :
         {HabitMatter::time, HabitMatter::tones, HabitMatter::waits, HabitMatter::absences}) {
        append(HabitSearch(changes, groups, matter).find(), habits);
    }
    std::stable_sort(habits.begin(), habits.end(),
                     [](const Habit& a, const Habit& b) { return a.cost > b.cost; });
    return habits;
}

}  // namespace compline::assess
