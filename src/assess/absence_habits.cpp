#include "absence_habits.hpp"

#include "habit_groups.hpp"
#include "habit_words.hpp"

#include <algorithm>
#include <map>
#include <string>
#include <utility>

namespace compline::assess {

namespace {

constexpr double cost_of_left_out = 0.25;  // as a wait

using PlaceInForm = std::pair<int, time::BeatOfBar>;
using Symbols = std::pair<std::string, std::string>;
using Indexes = std::vector<std::size_t>;
using ByPlace = std::map<PlaceInForm, Indexes>;

PlaceInForm place_of(const Change& change) { return {change.bar, change.beat}; }

Symbols symbols_of(const Change& change) {
    return {change.from ? change.from->symbol() : std::string(), change.to.symbol()};
}

ByPlace marked_by_place(const std::vector<Change>& changes, bool Change::*mark) {
    ByPlace places;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (changes[i].*mark) places[place_of(changes[i])].push_back(i);
    }
    return places;
}

bool counts(const Change& change, HabitKind kind) {
    if (!is_judged_for_habits(change)) return false;
    return kind == HabitKind::left_out || could_fail(change, HabitMatter::time);
}

Habit habit_at(HabitKind kind, Indexes cases, const std::vector<Change>& changes) {
    Habit habit;
    habit.kind = kind;
    habit.fault = kind == HabitKind::wait ? HabitFault::wait : HabitFault::left_out;
    habit.changes = std::move(cases);
    habit.cases = static_cast<int>(habit.changes.size());
    habit.mean_ms = mean_lateness(habit.changes, changes);
    const double each = kind == HabitKind::wait ? 0 : cost_of_left_out;
    for (const auto i : habit.changes) habit.cost += each + changes[i].time_cost();
    const auto& last = changes[habit.changes.back()];
    habit.from = last.from;
    habit.to = last.to;
    return habit;
}

Habit at_place(HabitKind kind, const Indexes& cases, const std::vector<Change>& changes) {
    auto habit = habit_at(kind, cases, changes);
    const auto& first = changes[cases.front()];
    habit.bar = first.bar;
    habit.beat = first.beat;
    habit.section = first.section;
    for (const auto& change : changes) {
        if (place_of(change) == place_of(first) && counts(change, kind)) ++habit.of;
    }
    return habit;
}

/// The same chord after the same one, at more than one place.
Habit anywhere(HabitKind kind, Indexes cases, const std::vector<Change>& changes) {
    std::sort(cases.begin(), cases.end());
    const auto symbols = symbols_of(changes[cases.back()]);
    auto habit = habit_at(kind, std::move(cases), changes);
    for (const auto& change : changes) {
        if (counts(change, kind) && symbols_of(change) == symbols) ++habit.of;
    }
    return habit;
}

std::vector<Habit> waits(const std::vector<Change>& changes) {
    const auto places = marked_by_place(changes, &Change::wait);
    std::map<Symbols, std::vector<const Indexes*>> by_symbols;
    for (const auto& [place, cases] : places) {
        by_symbols[symbols_of(changes[cases.back()])].push_back(&cases);
    }
    std::vector<Habit> habits;
    for (const auto& [symbols, at] : by_symbols) {
        if (at.size() == 1) {
            habits.push_back(at_place(HabitKind::wait, *at.front(), changes));
            continue;
        }
        Indexes all;
        for (const auto* cases : at) all.insert(all.end(), cases->begin(), cases->end());
        habits.push_back(anywhere(HabitKind::wait, std::move(all), changes));
    }
    return habits;
}

}  // namespace

std::vector<Habit> habits_marked(const std::vector<Change>& changes) {
    auto habits = waits(changes);
    for (const auto& [place, cases] : marked_by_place(changes, &Change::left_out)) {
        habits.push_back(at_place(HabitKind::left_out, cases, changes));
    }
    return habits;
}

}  // namespace compline::assess
