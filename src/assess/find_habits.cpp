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

bool is_of_the_same(const Habit& a, const Habit& b) {
    return a.kind == b.kind && a.bar == b.bar && a.beat == b.beat && a.from == b.from &&
           a.to == b.to && a.quality == b.quality;
}

/// Hardly any change has both.
bool take_turns(const Habit& a, const Habit& b) {
    std::vector<std::size_t> both;
    std::set_intersection(a.changes.begin(), a.changes.end(), b.changes.begin(), b.changes.end(),
                          std::back_inserter(both));
    return 2 * both.size() < std::min(a.changes.size(), b.changes.size());
}

Habit together(const Habit& time, const Habit& tones) {
    Habit habit = time;
    habit.fault = HabitFault::mixed;
    habit.changes.clear();
    std::set_union(time.changes.begin(), time.changes.end(), tones.changes.begin(),
                   tones.changes.end(), std::back_inserter(habit.changes));
    habit.cases = static_cast<int>(habit.changes.size());
    habit.of = std::max(time.of, tones.of);
    habit.cost += tones.cost;
    return habit;
}

/// What is now missed and now wrong is one habit; what is late and wrong at once is two.
std::vector<Habit> joined(std::vector<Habit> time, std::vector<Habit> tones) {
    for (auto& one : time) {
        const auto other = std::find_if(tones.begin(), tones.end(), [&](const Habit& two) {
            return is_of_the_same(one, two) && take_turns(one, two);
        });
        if (other == tones.end()) continue;
        one = together(one, *other);
        tones.erase(other);
    }
    append(std::move(tones), time);
    return time;
}

}  // namespace

std::vector<Habit> find_habits(const std::vector<Change>& changes,
                               const std::vector<ReadStrum>& strums) {
    const auto groups = habit_groups(changes, fewest_changes);
    std::vector<Habit> habits;
    if (auto off_beats = off_beat_habit(strums)) habits.push_back(std::move(*off_beats));
    const auto of = [&](HabitMatter matter) { return HabitSearch(changes, groups, matter).find(); };
    append(joined(of(HabitMatter::time), of(HabitMatter::tones)), habits);
    append(of(HabitMatter::waits), habits);
    append(of(HabitMatter::absences), habits);
    std::stable_sort(habits.begin(), habits.end(),
                     [](const Habit& a, const Habit& b) { return a.cost > b.cost; });
    return habits;
}

}  // namespace compline::assess
