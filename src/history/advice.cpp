#include "things.hpp"

#include <compline/history/advice.hpp>

#include <algorithm>
#include <array>
#include <cassert>

namespace compline::history {

namespace {

constexpr std::size_t most_to_work_on = 2;

using PlannedThings = std::vector<PlannedThing>;

PlannedThings work_for(const std::vector<TuneHistory>& tunes, const std::vector<Homework>& homework,
                       const PlayedTunes& lately, const Today& today) {
    auto work = homework_things(tunes, homework, today.date);
    if (work.size() > most_to_work_on) work.resize(most_to_work_on);
    for (const auto find : {weakest_place, weak_transition}) {
        if (work.size() == most_to_work_on) break;
        if (auto found = find(lately)) work.push_back(std::move(*found));
    }
    return work;
}

/// Among those that can be played.
const TuneHistory* tune_worked_on(const PlannedThings& work, const PlayedTunes& played) {
    for (const auto& planned : work) {
        const auto& thing = planned.thing;
        const auto found = std::find_if(played.begin(), played.end(), [&](const auto* tune) {
            return thing.titles.empty() ? tune->tune.id == thing.tune.id
                                        : tune->tune.title == thing.titles.front();
        });
        if (found != played.end()) return *found;
    }
    return nullptr;
}

const TuneHistory* longest_not_played(const PlayedTunes& tunes) {
    return *std::min_element(tunes.begin(), tunes.end(), [](const auto* one, const auto* other) {
        return one->evenings.back().date < other->evenings.back().date;
    });
}

Thing first_take(const Today& today) {
    Thing thing;
    thing.kind = ThingKind::first_take;
    thing.minutes = std::clamp(today.minutes.value_or(thing.minutes), 1, thing.minutes);
    return thing;
}

std::optional<PlannedThing> end_of_evening(const PlannedThings& work, const PlayedTunes& played,
                                           const Today& today) {
    if (played.empty()) return std::nullopt;
    if (auto due = tune_due(played, today.date)) return due;
    const auto* const worked_on = tune_worked_on(work, played);
    return whole_tune(worked_on ? *worked_on : *longest_not_played(played));
}

}  // namespace

std::string_view name_of(Task task) {
    constexpr std::array<std::string_view, 4> names = {"ladder", "two_bars", "slower",
                                                       "other_grips"};
    return names.at(static_cast<std::size_t>(task));
}

std::string_view name_of(ThingKind kind) {
    constexpr std::array<std::string_view, 6> names = {"homework", "place",      "transition",
                                                       "due",      "whole_tune", "first_take"};
    return names.at(static_cast<std::size_t>(kind));
}

std::vector<Thing> advice(const std::vector<TuneHistory>& tunes,
                          const std::vector<Homework>& homework, const Today& today) {
    assert(days_of(today.date));
    const auto played = playable(tunes);
    auto things = work_for(tunes, homework, played_lately(played, today.date), today);
    if (auto end = end_of_evening(things, played, today)) things.push_back(std::move(*end));
    if (things.empty()) return {first_take(today)};
    return fitted(std::move(things), today.minutes);
}

}  // namespace compline::history
