#pragma once

#include <compline/assess/assessment.hpp>

#include <fmt/format.h>

#include <array>
#include <string>
#include <vector>

namespace compline::tests {

// A take as the judge leaves it, for what is said of it as a whole: everything is right until a
// test spoils it.

using assess::Change;
using assess::Habit;
using assess::HabitFault;
using assess::HabitKind;
using assess::Tones;
using assess::Verdict;

constexpr int times_through = 6;
/// A chord a bar: Dm7 to G7 twice, three half-diminished chords.
constexpr std::array tune = {"Fmaj7", "Em7b5", "A7b9", "Dm7", "G7",    "Cm7",  "F7",  "Bbmaj7",
                             "Bm7b5", "E7",    "Am7",  "Ab7", "Gm7",   "Db7",  "C7",  "F6",
                             "Dm7",   "G7",    "Em7",  "Eb7", "Am7b5", "D7b9", "Gm9", "C13"};
constexpr int bars = static_cast<int>(tune.size());

/// Six times through that tune, all in time and right, before something goes wrong.
struct Take {
    std::vector<Change> changes;
    std::vector<assess::ReadStrum> strums;

    Take() {
        for (int n = 0; n < bars * times_through; ++n) {
            Change change;
            change.time_through = 1 + n / bars;
            change.bar = 1 + n % bars;
            change.section = change.bar <= 16 ? "A" : "B";
            change.into_section = n > 0 && (change.bar == 1 || change.bar == 17);
            change.to = harmony::read_chord(tune[static_cast<std::size_t>(n % bars)]);
            if (n > 0) change.from = changes.back().to;
            change.verdict = Verdict::on_time;
            change.lateness = time::Seconds(0.004);
            change.beats_in = 0;
            change.tones = Tones::right;
            change.strings = 0b011110;
            changes.push_back(change);
        }
    }
    Change& at(int time, int bar) {
        return changes[static_cast<std::size_t>((time - 1) * bars + bar - 1)];
    }
    [[nodiscard]] std::vector<Habit> habits() const { return find_habits(changes, strums); }
};

inline void be_late(Change& change, double ms = 100) {
    change.verdict = Verdict::late;
    change.lateness = time::from_milliseconds(ms);
}

inline void miss(Change& change, const harmony::Degree& degree) {
    change.tones = Tones::incomplete;
    change.missing = {degree};
}

inline void spoil(Change& change, int string) {
    change.tones = Tones::wrong;
    change.wrong.emplace_back().string = string;
}

/// In a line that a failing test can show.
inline std::string words(const Habit& habit) {
    auto words = fmt::format("{} {} {} of {}", name_of(habit.kind), name_of(habit.fault),
                             habit.cases, habit.of);
    if (habit.bar > 0) words += fmt::format(", bar {}", habit.bar);
    if (habit.from) words += fmt::format(", {}", habit.from->symbol());
    if (habit.to) words += fmt::format(" to {}", habit.to->symbol());
    if (!habit.quality.empty()) words += ", " + habit.quality;
    if (habit.tone) words += " " + habit.tone->name();
    if (habit.string) words += fmt::format(", string {}", *habit.string);
    return words;
}

inline std::string words(const Take& take) {
    std::string all;
    for (const auto& habit : take.habits()) all += (all.empty() ? "" : "; ") + words(habit);
    return all;
}

}  // namespace compline::tests
