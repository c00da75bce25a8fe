#include "habit_lines.hpp"

#include "change_words.hpp"
#include "words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>

namespace compline::report {

namespace {

using assess::Habit;
using assess::HabitFault;
using assess::HabitKind;

std::string cases_words(int cases, int of) { return fmt::format("{} of {} times", cases, of); }

std::string words_of_place(const Habit& habit) {
    if (habit.beat == time::BeatOfBar(1)) return fmt::format("bar {}", habit.bar);
    return fmt::format("bar {} beat {}", habit.bar, plain(habit.beat.number()));
}

std::string hand_move_words(const Habit& habit) {
    if (!habit.to) return "";
    return habit.from ? fmt::format("{} → {}", habit.from->symbol(), habit.to->symbol())
                      : habit.to->symbol();
}

/// What all its cases have in common.
std::string common_words(const Habit& habit) {
    switch (habit.kind) {
        case HabitKind::place:
        case HabitKind::wait:
        case HabitKind::left_out:
            if (habit.bar == 0) return hand_move_words(habit) + ", wherever it comes";
            return words_of_place(habit) + "  " + hand_move_words(habit);
        case HabitKind::transition:
            return hand_move_words(habit) + ", wherever it comes";
        case HabitKind::wide_move:
            return "where the hand moves more than four frets";
        case HabitKind::after_fill:
            return "right after a fill";
        case HabitKind::into_section:
            return habit.section.empty() ? "into a new section" : "into " + habit.section;
        case HabitKind::quality:
            return fmt::format("{} chords", habit.quality);
        case HabitKind::tone:
            return fmt::format("the {} of {} chords",
                               habit.tone->name(harmony::Accidentals::symbols), habit.quality);
        case HabitKind::string:
            return fmt::format("string {}", *habit.string);
        case HabitKind::off_beats:
            return "off-beats";
    }
    return "";
}

/// Where somebody comes in who waits: the same beat or off-beat each time, as its changes have it.
std::string wait_line(const Habit& habit, const practice::Report& report) {
    const auto& first = report.assessment.changes[habit.changes.front()];
    return wait_words(first, report.map, {habit.cases, habit.of});
}

/// What is wrong in most of its cases, where that is one thing: "string 2 fret 7: F♯ is not in
/// ...".
std::string usual_tones(const Habit& habit, const practice::Report& report) {
    if (habit.kind == HabitKind::tone || habit.kind == HabitKind::string) return "";
    std::map<std::string, std::size_t> all;
    for (const auto i : habit.changes) {
        for (const auto& words : tone_words_of(report.assessment.changes[i])) ++all[words];
    }
    const auto most = std::max_element(
        all.begin(), all.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
    if (most == all.end() || most->second * 2 <= habit.changes.size()) return "";
    return ", mostly " + most->first.substr(most->first.find("  ") + 2);
}

std::string words_of_faults(const Habit& habit, const practice::Report& report) {
    const auto times = cases_words(habit.cases, habit.of);
    switch (habit.fault) {
        case HabitFault::late:
            return late_words("late", habit.cases, habit.of, habit.mean_ms);
        case HabitFault::early:
            return late_words("early", habit.cases, habit.of, habit.mean_ms);
        case HabitFault::missed:
            return "missed " + times;
        case HabitFault::wrong:
            return (habit.kind == HabitKind::tone ? "wrong " : "a wrong tone ") + times +
                   usual_tones(habit, report);
        case HabitFault::incomplete:
            return (habit.kind == HabitKind::tone ? "missing " : "a tone missing ") + times +
                   usual_tones(habit, report);
        case HabitFault::wait:
            return wait_line(habit, report);
        case HabitFault::left_out:
            return "left out " + times;
        case HabitFault::rushed:
        case HabitFault::dragged: {
            const bool rushed = habit.fault == HabitFault::rushed;
            const double ms = std::fabs(std::round(habit.mean_ms.value_or(0)));
            return fmt::format("{}: {:.0f} ms {} where the feel has them, on average ({} of {})",
                               rushed ? "rushed" : "dragged", ms, rushed ? "before" : "behind",
                               habit.cases, plural(habit.of, "strum", "strums"));
        }
        case HabitFault::mixed:
            return "went wrong " + times;
    }
    return "";
}

}  // namespace

std::string late_words(const char* what, int cases, int of, std::optional<double> mean_ms) {
    auto text = fmt::format("{} {}", what, cases_words(cases, of));
    if (!mean_ms) return text;
    return text + fmt::format(", {:.0f} ms on average", std::fabs(std::round(*mean_ms)));
}

std::string habit_line(const Habit& habit, const practice::Report& report) {
    return common_words(habit) + "  " + words_of_faults(habit, report);
}

std::string to_work_on(const Habit& habit) {
    switch (habit.kind) {
        case HabitKind::place:
        case HabitKind::wait:
        case HabitKind::left_out:
            return habit.bar == 0 ? hand_move_words(habit) : words_of_place(habit);
        case HabitKind::transition:
            return hand_move_words(habit);
        case HabitKind::wide_move:
            return "moves of over four frets";
        case HabitKind::after_fill:
            return "coming back from a fill";
        case HabitKind::into_section:
            return habit.section.empty() ? "going into a new section"
                                         : "going into " + habit.section;
        case HabitKind::off_beats:
            return "your off-beats";
        case HabitKind::quality:
        case HabitKind::tone:
        case HabitKind::string:
            return common_words(habit);
    }
    return "";
}

bool is_of_tones(const Habit& habit) {
    return habit.fault == HabitFault::wrong || habit.fault == HabitFault::incomplete ||
           habit.fault == HabitFault::mixed;
}

bool is_of_time(const Habit& habit) {
    return habit.fault != HabitFault::wrong && habit.fault != HabitFault::incomplete &&
           habit.kind != HabitKind::off_beats;
}

}  // namespace compline::report
