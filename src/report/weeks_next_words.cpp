#include "weeks_next_words.hpp"

#include "weeks_words.hpp"
#include "words.hpp"

#include <compline/history/trend.hpp>
#include <compline/report/day_words.hpp>
#include <compline/text/words.hpp>

#include <fmt/format.h>

namespace compline::report {

namespace {

using history::Task;
using history::Thing;
using history::ThingKind;

std::string at_tempo_words(const Thing& thing) {
    if (thing.times == 0) {
        return fmt::format("from {} up to {} bpm", beats_words(thing.from_bpm),
                           beats_words(thing.to_bpm));
    }
    const auto times = thing.times == 1 ? "once" : fmt::format("{} times", thing.times);
    return fmt::format("{} at {} bpm", times, beats_words(thing.from_bpm));
}

std::string bars_of_tune(const Thing& thing) {
    return fmt::format("{}, {}", title_words(thing.tune),
                       bars_words({thing.from_bar, thing.to_bar}));
}

/// What is done in place of the same again.
std::string task_words(Task task) {
    switch (task) {
        case Task::ladder:
            return "";
        case Task::two_bars:
            return "two bars alone";
        case Task::slower:
            return "a fifth slower";
        case Task::other_grips:
            return "other grips: choose among these, then play them";
    }
    return "";
}

std::string place_why(const Thing& thing) {
    if (!thing.place) return "";
    const auto& place = *thing.place;
    auto words = fmt::format("Bar {}, {}: {}", place.bar, move_words(place.from, place.to),
                             place_faults_words(place));
    const auto course = place_course_words(place);
    if (!course.empty() && place.trend.course != history::Course::better) words += ", " + course;
    const auto task = task_words(thing.task);
    return words + (task.empty() ? "" : ": so today " + task) + ".";
}

std::string transition_why(const Thing& thing) {
    if (!thing.transition) return "";
    std::vector<std::string> titles;
    for (const auto& title : thing.titles) {
        history::KnownTune tune;
        tune.title = title;
        titles.push_back(title_words(tune));
    }
    return fmt::format(
        "In time and right in {} of {}: weak in {}. So today these two chords alone.",
        thing.transition->sums.both, thing.transition->sums.of, text::listed(titles));
}

std::string last_played_words(const Thing& thing, const WeeksAsked& asked) {
    if (thing.last_played.empty()) return "You have not played all of it yet.";
    if (thing.last_played == asked.today) return "You played it today.";
    constexpr int week = 7;
    const auto then = history::days_of(thing.last_played);
    const auto now = history::days_of(asked.today);
    if (then && now && *now - *then < week) {
        return fmt::format("You last played it {}.", on_day(thing.last_played, asked.today));
    }
    return fmt::format("You have not played it since {}.",
                       day_words(thing.last_played, asked.today));
}

std::string due_why(const Thing& thing, const WeeksAsked& asked) {
    const auto last = last_played_words(thing, asked);
    if (thing.due.empty()) return last;
    return fmt::format("{} It {} due again {}.", last, thing.due < asked.today ? "was" : "is",
                       on_day(thing.due, asked.today));
}

std::string homework_why(const Thing& thing, const WeeksAsked& asked) {
    if (!thing.homework) return "";
    const auto top = beats_words(thing.homework->to_bpm);
    const auto given = on_day(thing.homework->given, asked.today);
    if (thing.days_done == 0) return fmt::format("Given {}; not clean at {} yet.", given, top);
    return fmt::format("Given {}; clean at {} on {} of {} days.", given, top, thing.days_done,
                       history::days_wanted);
}

}  // namespace

std::string what_words(const Thing& thing) {
    switch (thing.kind) {
        case ThingKind::homework:
            return "Homework: " +
                   (thing.homework ? homework_name(*thing.homework) : bars_of_tune(thing));
        case ThingKind::place:
            return bars_of_tune(thing) + ", " + at_tempo_words(thing);
        case ThingKind::transition:
            return (thing.transition
                        ? move_words(thing.transition->from, thing.transition->to) + " and back, "
                        : "") +
                   at_tempo_words(thing);
        case ThingKind::due:
            return title_words(thing.tune) + ", the whole tune, " + at_tempo_words(thing);
        case ThingKind::whole_tune:
            return "To end with, " + title_words(thing.tune) + ", the whole tune, " +
                   at_tempo_words(thing);
        case ThingKind::first_take:
            return "A tune of yours, once through, as it comes";
    }
    return "";
}

std::string why_words(const Thing& thing, const WeeksAsked& asked) {
    switch (thing.kind) {
        case ThingKind::homework:
            return homework_why(thing, asked);
        case ThingKind::place:
            return place_why(thing);
        case ThingKind::transition:
            return transition_why(thing);
        case ThingKind::due:
            return due_why(thing, asked);
        case ThingKind::whole_tune:
            return last_played_words(thing, asked);
        case ThingKind::first_take:
            return "Nothing was played yet that could be judged. Put the file of a chart in place "
                   "of CHART; where you have none, the second line makes one to write over.";
    }
    return "";
}

}  // namespace compline::report
