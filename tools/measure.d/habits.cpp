#include "measure.d/habits.hpp"

#include "measure.d/compare.hpp"
#include "measure.d/confusion.hpp"
#include "measure.d/habit_pupils.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace compline::measure {

namespace {

using assess::Habit;
using assess::HabitKind;
using simulate::Chance;
using simulate::Comping;
using simulate::PlayedTune;
using time::Seconds;
using ChangeSet = std::set<std::size_t>;

/// The changes where it struck, as the judge counts them.
ChangeSet struck(const Pupil& pupil, const PlayedTune& played, const assess::Assessment& said) {
    ChangeSet changes;
    const auto judged = judged_of(played.changes, said, pupil.map);
    for (std::size_t i = 0; i < judged.size(); ++i) {
        if (!played.changes[i].planted || judged[i] == nullptr) continue;
        changes.insert(static_cast<std::size_t>(judged[i] - said.changes.data()));
    }
    return changes;
}

/// Nearly all of one is in the other, and the other way round.
bool is_same(const Habit& habit, const ChangeSet& struck) {
    const auto both = std::count_if(habit.changes.begin(), habit.changes.end(),
                                    [&](std::size_t i) { return struck.count(i) > 0; });
    constexpr double nearly_all = 0.75;
    return static_cast<double>(both) >= nearly_all * static_cast<double>(struck.size()) &&
           static_cast<double>(both) >= nearly_all * static_cast<double>(habit.changes.size());
}

std::string words_of(const Habit& habit) {
    auto words = fmt::format("{} {} {} of {}, cost {:.2f}", name_of(habit.kind),
                             name_of(habit.fault), habit.cases, habit.of, habit.cost);
    if (habit.bar > 0) words += fmt::format(", bar {} beat {}", habit.bar, habit.beat.number());
    if (habit.to) {
        words +=
            fmt::format(", {} -> {}", habit.from ? habit.from->symbol() : "", habit.to->symbol());
    }
    words += " " + habit.quality;
    if (habit.tone) words += " " + habit.tone->name();
    if (habit.string) words += fmt::format(" string {}", *habit.string);
    return words;
}

std::string all_words(const assess::Assessment& said) {
    std::string words;
    for (const auto& habit : said.habits) words += "\n      " + words_of(habit);
    return words.empty() ? "\n      nothing" : words;
}

std::string take_words(const Pupil& pupil) {
    return fmt::format("{}, {:g} bpm, {}, seed {}", pupil.map.form().chart.title,
                       pupil.map.tempo().count(), name_of(pupil.habits.comping), pupil.seed);
}

std::string struck_words(const ChangeSet& struck, const assess::Assessment& said) {
    std::string words = fmt::format("{}:", struck.size());
    int shown = 0;
    for (const auto i : struck) {
        const auto& change = said.changes[i];
        if (shown++ >= 6) break;
        words += fmt::format(" [{}.{} {:g} {} {}]", change.time_through, change.bar,
                             change.beat.number(), change.to.symbol(), in_words(change));
    }
    return words;
}

/// What holds at one place alone is that place, and nobody could tell; a quality that comes after
/// one chord only is that transition.
bool is_general(const PlantedHabit& planted, const ChangeSet& struck,
                const assess::Assessment& said) {
    std::map<std::string, int> places;
    std::map<std::string, int> transitions;
    for (const auto i : struck) {
        const auto& change = said.changes[i];
        ++places[fmt::format("{} {}", change.bar, change.beat.number())];
        ++transitions[fmt::format("{} {}", change.from ? change.from->symbol() : "",
                                  change.to.symbol())];
    }
    constexpr double nearly_all = 0.75;
    const auto in_one = [&](const auto& counts) {
        return std::any_of(counts.begin(), counts.end(), [&](const auto& count) {
            return count.second >= nearly_all * static_cast<double>(struck.size());
        });
    };
    switch (planted.kind) {
        case HabitKind::place:
        case HabitKind::wait:
        case HabitKind::left_out:
        case HabitKind::string:
            return true;
        case HabitKind::quality:
        case HabitKind::tone:
            return !in_one(places) && !in_one(transitions);
        default:
            return !in_one(places);
    }
}

/// It is said of the place or the transition that was planted; faults by chance there may be among
/// its cases. Of another kind: of the changes that were struck.
bool is_it(const Habit& habit, const PlantedHabit& planted, const ChangeSet& struck,
           const assess::Assessment& said) {
    if (habit.kind != planted.kind) return false;
    const auto& change = said.changes[*struck.rbegin()];
    switch (planted.kind) {
        case HabitKind::place:
        case HabitKind::wait:
        case HabitKind::left_out:
            return habit.bar == change.bar && habit.beat == change.beat;
        case HabitKind::transition:
            return habit.from == change.from && habit.to == change.to;
        default:
            return is_same(habit, struck);
    }
}

void count(HabitFigures& figures, const PlantedHabit& planted, const Pupil& pupil,
           const PlayedTune& played, const assess::Assessment& said) {
    const auto changes = struck(pupil, played, said);
    ++figures.takes;
    const bool of_strums = planted.kind == HabitKind::off_beats;
    if (!of_strums && (changes.size() < 3 || !is_general(planted, changes, said))) return;
    ++figures.planted;
    figures.cases += static_cast<int>(changes.size());
    const auto right = [&](const Habit& habit) {
        if (!of_strums) return is_it(habit, planted, changes, said);
        const auto fault = pupil.habits.off_beats < Seconds(0) ? assess::HabitFault::rushed
                                                               : assess::HabitFault::dragged;
        return habit.kind == planted.kind && habit.fault == fault;
    };
    const auto alike = [&](const Habit& habit) { return right(habit) || is_same(habit, changes); };
    const auto& habits = said.habits;
    const bool first = !habits.empty() && right(habits.front());
    figures.first += first ? 1 : 0;
    figures.same_changes += !habits.empty() && alike(habits.front()) ? 1 : 0;
    figures.anywhere += std::any_of(habits.begin(), habits.end(), alike) ? 1 : 0;
    if (first) return;
    figures.missed.push_back(fmt::format("{}\n    planted {}\n    said:{}", take_words(pupil),
                                         struck_words(changes, said), all_words(said)));
}

/// Chords for which his rhythm has no room are never played: that is so, and may be said.
bool is_of_the_rhythm(const Habit& habit, Comping comping) {
    return habit.kind == HabitKind::left_out && habit.cases == habit.of &&
           comping != Comping::sparse;
}

}  // namespace

HabitFigures find_planted(const std::vector<chart::Form>& forms, const PlantedHabit& planted,
                          double strength, int takes, int times, std::uint64_t seed) {
    HabitFigures figures;
    // Not every tune has room for it: others are tried.
    const int most = takes * 8;
    for (int n = 0; n < most && figures.planted < takes; ++n) {
        const auto own = seed * 1000003 + static_cast<std::uint64_t>(n) * 7919 +
                         static_cast<std::uint64_t>(std::lround(strength * 100));
        Chance chance(~own);
        const auto pupil = pupil_with(forms, planted, strength, times, chance, own);
        const auto played = simulate::play(pupil.map, pupil.habits, own);
        count(figures, planted, pupil, played, judged(pupil, played));
    }
    return figures;
}

NoHabitFigures find_none(const std::vector<chart::Form>& forms, int takes, int times,
                         std::uint64_t seed) {
    NoHabitFigures figures;
    for (int n = 0; n < takes; ++n) {
        const auto own = seed * 1000003 + static_cast<std::uint64_t>(n) * 7907;
        Chance chance(~own);
        const auto pupil = pupil_without(forms, n, times, chance, own);
        const auto said = judged(pupil, simulate::play(pupil.map, pupil.habits, own));
        ++figures.takes;
        const bool named = std::any_of(said.habits.begin(), said.habits.end(), [&](const Habit& h) {
            return !is_of_the_rhythm(h, pupil.habits.comping);
        });
        if (!named) continue;
        ++figures.named;
        figures.said.push_back(take_words(pupil) + all_words(said));
    }
    return figures;
}

}  // namespace compline::measure
