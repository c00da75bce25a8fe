#include "measure.d/habits.hpp"

#include "measure.d/charts.hpp"
#include "measure.d/compare.hpp"
#include "measure.d/confusion.hpp"

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
using simulate::Deed;
using simulate::PlayedTune;
using time::Seconds;
using Strikes = simulate::Planted::Strikes;
using ChangeSet = std::set<std::size_t>;

constexpr double off_beats_ms = 50;
constexpr std::array<Comping, 5> beats = {Comping::charleston, Comping::four_to_the_bar,
                                          Comping::long_chords, Comping::charleston,
                                          Comping::fills};

double between(Chance& chance, double from, double to) {
    return from + (to - from) * chance.uniform();
}

/// Scatter, place, legato or not: of anybody.
simulate::Habits somebody(Chance& chance) {
    simulate::Habits habits;
    habits.comping = beats[chance.below(beats.size())];
    habits.place = Seconds(chance.below(2) == 0 ? 0 : between(chance, 0, 0.020));
    habits.scatter = Seconds(between(chance, 0.010, 0.020));
    habits.overlap = Seconds(between(chance, 0, 0.06));
    return habits;
}

void err_by_chance(simulate::Habits& habits, double rate) {
    for (const auto deed : {Deed::late, Deed::early, Deed::missed, Deed::wrong_fret,
                            Deed::wrong_third, Deed::stuck_finger, Deed::missing_seventh}) {
        habits.rate(deed) = rate / 3;
    }
    habits.rate(Deed::late) = rate;
}

Pupil pupil_of(const std::vector<chart::Form>& forms, const simulate::Habits& habits, int times,
               Chance& chance, std::uint64_t seed) {
    // The guitarist counts in quarters: where a meter does not, his off-beats are none.
    const bool by_chance = chance.below(3) != 0 || habits.off_beats != Seconds(0);
    auto form = by_chance ? any_chart(chance) : forms[chance.below(forms.size())];
    auto asked = roadmap::Asked::of(form.whole(), times);
    asked.tempo = time::Bpm(std::round(between(chance, 90, 200)));
    const auto channels =
        static_cast<simulate::ChannelLayout>(chance.below(simulate::channels_count - 1));
    return {roadmap::RoadMap(std::move(form), std::move(asked)), habits, channels, seed};
}

simulate::Habits habits_with(const PlantedHabit& planted, double strength, Chance& chance) {
    auto habits = somebody(chance);
    err_by_chance(habits, 0.03);
    habits.planted.strikes = planted.strikes;
    habits.planted.deed = planted.deed;
    habits.planted.rate = strength;
    if (planted.kind == HabitKind::wide_move) habits.wide_moves = 0.15;
    if (planted.kind == HabitKind::after_fill) habits.comping = Comping::fills;
    if (planted.kind == HabitKind::off_beats) {
        habits.comping = Comping::charleston;
        const double way = chance.below(2) == 0 ? -1 : 1;
        habits.off_beats = Seconds(way * strength * off_beats_ms / 1000);
    }
    if (planted.kind == HabitKind::string) {
        habits.slips_on = 1 + static_cast<int>(chance.below(4));
        habits.planted.rate = strength / 4;  // a finger, not the hand
        habits.rate(Deed::wrong_fret) = 0;
    }
    return habits;
}

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

std::string words_of(const Habit& habit, const std::vector<assess::Change>& changes) {
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
    (void)changes;
    return words;
}

std::string all_words(const assess::Assessment& said) {
    std::string words;
    for (const auto& habit : said.habits) words += "\n      " + words_of(habit, said.changes);
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

void count(HabitFigures& figures, const PlantedHabit& planted, const Pupil& pupil,
           const PlayedTune& played, const assess::Assessment& said) {
    const auto changes = struck(pupil, played, said);
    ++figures.takes;
    const bool of_strums = planted.kind == HabitKind::off_beats;
    if (!of_strums && (changes.size() < 3 || !is_general(planted, changes, said))) return;
    ++figures.planted;
    figures.cases += static_cast<int>(changes.size());
    const auto right = [&](const Habit& habit) {
        if (!of_strums) return habit.kind == planted.kind && is_same(habit, changes);
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

const std::vector<PlantedHabit>& planted_habits() {
    static const std::vector<PlantedHabit> all = {
        {"a place, late", HabitKind::place, Strikes::at_one_place, Deed::late},
        {"a place, missed", HabitKind::place, Strikes::at_one_place, Deed::missed},
        {"a place, wrong", HabitKind::place, Strikes::at_one_place, Deed::wrong_fret},
        {"a transition, late", HabitKind::transition, Strikes::on_a_transition, Deed::late},
        {"wide moves, late", HabitKind::wide_move, Strikes::on_wide_moves, Deed::late},
        {"after fills, late", HabitKind::after_fill, Strikes::after_fills, Deed::late},
        {"into sections, late", HabitKind::into_section, Strikes::into_sections, Deed::late},
        {"a quality, late", HabitKind::quality, Strikes::on_a_quality, Deed::late},
        {"a quality, wrong", HabitKind::quality, Strikes::on_a_quality, Deed::wrong_fret},
        {"its third", HabitKind::tone, Strikes::on_a_quality, Deed::wrong_third},
        {"its seventh", HabitKind::tone, Strikes::on_a_quality, Deed::missing_seventh},
        {"a string", HabitKind::string, Strikes::anywhere, Deed::wrong_fret},
        {"off-beats", HabitKind::off_beats, Strikes::nowhere, Deed::late},
        {"waits at a place", HabitKind::wait, Strikes::at_one_place, Deed::wait},
        {"a place, left out", HabitKind::left_out, Strikes::at_one_place, Deed::laid_out},
    };
    return all;
}

HabitFigures find_planted(const std::vector<chart::Form>& forms, const PlantedHabit& planted,
                          double strength, int takes, int times, std::uint64_t seed) {
    HabitFigures figures;
    // Not every tune has room for it: others are tried.
    const int most = takes * 8;
    for (int n = 0; n < most && figures.planted < takes; ++n) {
        const auto own = seed * 1000003 + static_cast<std::uint64_t>(n) * 7919 +
                         static_cast<std::uint64_t>(std::lround(strength * 100));
        Chance chance(~own);
        const auto habits = habits_with(planted, strength, chance);
        const auto pupil = pupil_of(forms, habits, times, chance, own);
        const auto played = simulate::play(pupil.map, habits, own);
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
        auto habits = somebody(chance);
        habits.comping = static_cast<Comping>(n % simulate::comping_count);
        habits.wide_moves = between(chance, 0, 0.2);
        for (const auto deed : {Deed::push, Deed::later_entry, Deed::broken, Deed::lead_in,
                                Deed::approach, Deed::passing, Deed::dead_strum}) {
            habits.rate(deed) = 0.02;
        }
        err_by_chance(habits, between(chance, 0, 0.06));
        const auto pupil = pupil_of(forms, habits, times, chance, own);
        const auto said = judged(pupil, simulate::play(pupil.map, habits, own));
        ++figures.takes;
        const bool named = std::any_of(said.habits.begin(), said.habits.end(), [&](const Habit& h) {
            return !is_of_the_rhythm(h, habits.comping);
        });
        if (!named) continue;
        ++figures.named;
        figures.said.push_back(take_words(pupil) + all_words(said));
    }
    return figures;
}

}  // namespace compline::measure
