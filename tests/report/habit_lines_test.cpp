// Each kind of habit in words, and what the first sentence says to work on.

#include "report/hand_made.hpp"
#include "support/catch.hpp"

#include <algorithm>
#include <utility>

using namespace compline;
using namespace compline::tests;
using assess::Habit;
using assess::HabitFault;
using assess::HabitKind;

namespace {

Habit habit(HabitKind kind, HabitFault fault, std::optional<double> mean_ms = {}) {
    Habit habit;
    habit.kind = kind;
    habit.fault = fault;
    habit.cases = 8;
    habit.of = 9;
    habit.mean_ms = mean_ms;
    habit.cost = 3;
    habit.changes = {0, 1, 2};
    return habit;
}

Habit at_bar(Habit habit, int bar, double beat = 1) {
    habit.bar = bar;
    habit.beat = time::BeatOfBar(beat);
    habit.from = chord("A7");
    habit.to = chord("Dm7");
    return habit;
}

/// The habit's line, and what is to be worked on.
std::pair<std::string, std::string> said(const Habit& habit, const assess::Change& change) {
    auto report = report_of({change, change, change, at(a_change(), 1, 9)}, 3);
    report.assessment.habits = {habit};
    auto text = report::to_text(report);
    std::replace(text.begin(), text.end(), '\n', ' ');
    const auto work = text.find("work on ") + 8;
    auto words = text.substr(work, text.find("  ", work) - work - 1);
    return {text, words};
}

void says(const Habit& habit, const std::string& line, const std::string& work,
          const assess::Change& change = a_change()) {
    const auto [text, words] = said(habit, change);
    INFO(text);
    CHECK(text.find("  " + line) != std::string::npos);
    CHECK(words == work);
}

}  // namespace

TEST_CASE("a habit is said by what its cases have in common, how often, and how far off",
          "[report]") {
    says(at_bar(habit(HabitKind::place, HabitFault::late, 106.2), 14, 3),
         "bar 14 beat 3  A7 → Dm7  late 8 of 9 times, 106 ms on average", "bar 14 beat 3");
    says(at_bar(habit(HabitKind::transition, HabitFault::early, -61), 0),
         "A7 → Dm7, wherever it comes  early 8 of 9 times, 61 ms on average", "A7 → Dm7");
    says(habit(HabitKind::wide_move, HabitFault::late, 84),
         "where the hand moves more than four frets  late 8 of 9 times, 84 ms on",
         "moves of over four frets");
    says(habit(HabitKind::after_fill, HabitFault::missed),
         "right after a fill  missed 8 of 9 times", "coming back from a fill");
    auto into = habit(HabitKind::into_section, HabitFault::mixed);
    says(into, "into a new section  went wrong 8 of 9 times", "going into a new section");
    into.section = "B";
    says(into, "into B  went wrong 8 of 9 times", "going into B");
}

TEST_CASE("a habit of tones names chords, tone or string", "[report]") {
    auto quality = habit(HabitKind::quality, HabitFault::wrong);
    quality.quality = "half-diminished";
    says(quality, "half-diminished chords  a wrong tone 8 of 9 times", "half-diminished chords");
    quality.kind = HabitKind::tone;
    quality.tone = harmony::Degree{5, -1};
    says(quality, "the ♭5 of half-diminished chords  wrong 8 of 9 times",
         "the ♭5 of half-diminished chords");
    quality.fault = HabitFault::incomplete;
    says(quality, "the ♭5 of half-diminished chords  missing 8 of 9 times",
         "the ♭5 of half-diminished chords");
    auto string = habit(HabitKind::string, HabitFault::wrong);
    string.string = 4;
    says(string, "string 4  a wrong tone 8 of 9 times", "string 4");
}

TEST_CASE("where most of its cases lack the same tone, that is said", "[report]") {
    auto bare = a_change();
    bare.tones = assess::Tones::incomplete;
    bare.missing = {{7, -1}};
    says(at_bar(habit(HabitKind::place, HabitFault::incomplete), 7),
         "bar 7  A7 → Dm7  a tone missing 8 of 9 times, mostly without its ♭7 (C)", "bar 7", bare);
}

TEST_CASE("off-beats are rushed or dragged, waits come in later, places are left out", "[report]") {
    says(habit(HabitKind::off_beats, HabitFault::rushed, -18),
         "off-beats  rushed: 18 ms before where the feel has them, on average (8 of 9",
         "your off-beats");
    says(habit(HabitKind::off_beats, HabitFault::dragged, 18),
         "off-beats  dragged: 18 ms behind where the feel has them", "your off-beats");
    says(at_bar(habit(HabitKind::wait, HabitFault::wait, 12), 7),
         "bar 7  A7 → Dm7  in on 2, 8 of 9 times; its neighbours where they are due", "bar 7",
         placed(1, 12));
    says(at_bar(habit(HabitKind::left_out, HabitFault::left_out), 7),
         "bar 7  A7 → Dm7  left out 8 of 9 times", "bar 7");
}
