#include "support/catch.hpp"

#include <compline/assess/assessment.hpp>

#include <fmt/format.h>

#include <cmath>

using namespace compline;
using assess::Change;
using assess::Habit;
using assess::HabitFault;
using assess::HabitKind;
using assess::Tones;
using assess::Verdict;

namespace {

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

void be_late(Change& change, double ms = 100) {
    change.verdict = Verdict::late;
    change.lateness = time::from_milliseconds(ms);
}

void miss(Change& change, const harmony::Degree& degree) {
    change.tones = Tones::incomplete;
    change.missing = {degree};
}

void spoil(Change& change, int string) {
    change.tones = Tones::wrong;
    change.wrong.emplace_back().string = string;
}

/// In a line that a failing test can show.
std::string words(const Habit& habit) {
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

std::string words(const Take& take) {
    std::string all;
    for (const auto& habit : take.habits()) all += (all.empty() ? "" : "; ") + words(habit);
    return all;
}

/// A strum on every beat and on the off-beat after it, each so late.
void strum_eighths(Take& take, int pairs, double on_ms, double off_ms) {
    for (int n = 0; n < pairs; ++n) {
        const double scatter = n % 3 - 1;
        assess::ReadStrum strum;
        strum.asynchrony = time::from_milliseconds(on_ms + 4 * scatter);
        take.strums.push_back(strum);
        strum.asynchrony = time::from_milliseconds(off_ms - 3 * scatter);
        strum.off_beat = true;
        take.strums.push_back(strum);
    }
}

}  // namespace

TEST_CASE("a place that comes late most times is a habit, with how late and what it costs") {
    Take take;
    for (const int time : {1, 2, 4, 5, 6}) be_late(take.at(time, 14), 90 + 10 * time);
    REQUIRE(words(take) == "place late 5 of 6, bar 14, Gm7 to D♭7");
    const auto habit = take.habits().front();
    CHECK(*habit.mean_ms == Approx(126));
    CHECK(habit.cost == Approx(5 * 0.126 / 0.2));
    CHECK(habit.section == "A");
    CHECK(habit.changes == std::vector<std::size_t>{13, 37, 85, 109, 133});
}

TEST_CASE("a few faults here and there are no habit, nor two at one place") {
    Take take;
    CHECK(words(take).empty());
    for (int n = 0; n < 8; ++n) be_late(take.at(1 + n % 6, 2 + (n * 7) % 23));
    be_late(take.at(3, 20));
    be_late(take.at(5, 20));
    CHECK(words(take).empty());
}

TEST_CASE("what goes wrong seldom is no habit, however seldom it goes wrong elsewhere") {
    Take take;
    int late = 0;
    for (auto& change : take.changes) {
        change.after_fill = change.bar % 2 == 0;
        if (change.after_fill && ++late % 5 == 0) be_late(change);
    }
    CHECK(words(take).empty());
}

TEST_CASE("late wherever one chord follows another is that transition") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        be_late(take.at(time, 5));
        if (time != 2) be_late(take.at(time, 18));
    }
    CHECK(words(take) == "transition late 11 of 12, Dm7 to G7");
}

TEST_CASE("late at one place of a transition alone is the place, and so where it has but one") {
    Take one;
    for (int time = 1; time <= times_through; ++time) be_late(one.at(time, 18));
    CHECK(words(one) == "place late 6 of 6, bar 18, Dm7 to G7");
    Take only;
    for (int time = 1; time <= times_through; ++time) be_late(only.at(time, 9));
    CHECK(words(only) == "place late 6 of 6, bar 9, B♭maj7 to Bm7♭5");
}

TEST_CASE("wide moves that come late nearly all at one place are that place") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        take.at(time, 14).wide_move = true;
        be_late(take.at(time, 14));
    }
    take.at(2, 8).wide_move = true;
    be_late(take.at(2, 8));
    CHECK(words(take) == "place late 6 of 6, bar 14, Gm7 to D♭7");
    for (int time = 1; time <= times_through; ++time) {
        take.at(time, 5).wide_move = true;
        be_late(take.at(time, 5));
    }
    CHECK(words(take) == "wide_move late 13 of 13");
}

TEST_CASE("late after wide moves, after fills and into sections, each is told by what it is") {
    Take wide;
    Take fills;
    for (std::size_t n = 0; n < wide.changes.size(); n += 7) {
        wide.changes[n].wide_move = true;
        be_late(wide.changes[n]);
        fills.changes[n].after_fill = true;
        be_late(fills.changes[n]);
    }
    // Where they had to be and were not, they are no cases.
    wide.changes[3].wide_move = true;
    CHECK(words(wide) == "wide_move late 21 of 22");
    CHECK(words(fills) == "after_fill late 21 of 21");
    Take sections;
    for (auto& change : sections.changes) {
        if (change.into_section) be_late(change);
    }
    CHECK(words(sections) == "into_section late 11 of 11");
    CHECK(sections.habits().front().section.empty());
}

TEST_CASE("what a habit explains counts for no other") {
    Take take;
    for (std::size_t n = 0; n < take.changes.size(); n += 4) {
        take.changes[n].wide_move = true;
        be_late(take.changes[n]);  // bars 1, 5, 9 and on, each of them six times of six
    }
    for (int time = 1; time <= times_through; ++time) take.at(time, 2).verdict = Verdict::missed;
    CHECK(words(take) == "wide_move late 36 of 36; place missed 6 of 6, bar 2, Fmaj7 to Em7♭5");
}

TEST_CASE("the costliest habit comes first, whatever tells it best") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        be_late(take.at(time, 3), 60);
        if (time > 1) take.at(time, 12).verdict = Verdict::missed;
    }
    CHECK(words(take) ==
          "place missed 5 of 6, bar 12, Am7 to A♭7; place late 6 of 6, bar 3, Em7♭5 to A7♭9");
}

TEST_CASE("one tone of one kind of chord is named, and the kind alone where it is now this one") {
    Take sevenths;
    Take any;
    for (int time = 1; time <= times_through; ++time) {
        for (const int bar : {2, 9, 21}) {
            miss(sevenths.at(time, bar), {7, -1});
            miss(any.at(time, bar), {time % 2 == 0 ? 3 : 7, -1});
        }
    }
    CHECK(words(sevenths) == "tone incomplete 18 of 18, half-diminished b7");
    CHECK(sevenths.habits().front().cost == Approx(18 * 0.25));
    CHECK(words(any) == "quality incomplete 18 of 18, half-diminished");
}

TEST_CASE("a foreign tone stands for the degree that its string should have had") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        for (const int bar : {2, 9, 21}) {
            auto& change = take.at(time, bar);
            spoil(change, 2 + bar % 3);
            change.wrong.front().nearest_fret = 5;
            change.wrong.front().nearest = harmony::spell(change.to.root, {5, -1});
        }
    }
    CHECK(words(take) == "tone wrong 18 of 18, half-diminished b5");
}

TEST_CASE("an altered dominant is a kind of its own, and a thirteenth chord a dominant") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        for (const int bar : {3, 22}) be_late(take.at(time, bar));
    }
    CHECK(words(take) == "quality late 12 of 12, dominant ♭9");
    for (auto& change : take.changes) {
        const bool dominant = change.to.quality == harmony::Quality::dominant_seventh ||
                              change.to.quality == harmony::Quality::dominant_thirteenth;
        if (dominant && change.to.alterations.none()) be_late(change);
    }
    CHECK(words(take) == "quality late 54 of 54, dominant; quality late 12 of 12, dominant ♭9");
}

TEST_CASE("foreign tones on one string are a habit of that string, on now this and now that none") {
    Take one;
    Take each;
    for (int n = 0; n < 9; ++n) {
        auto& change = one.changes[static_cast<std::size_t>(n * 13)];
        spoil(change, n == 4 ? 5 : 3);
        spoil(each.changes[static_cast<std::size_t>(n * 13)], 2 + n % 4);
    }
    CHECK(words(one) == "string wrong 8 of 144, string 3");
    CHECK(words(each).empty());
    for (auto& change : one.changes) change.strings = 0;
    CHECK(words(one).empty());
}

TEST_CASE("off-beats before their time are rushed and after it dragged, against one's own beats") {
    Take rushed;
    strum_eighths(rushed, 20, 15, -25);
    CHECK(words(rushed) == "off_beats rushed 20 of 20");
    CHECK(*rushed.habits().front().mean_ms == Approx(-40));
    Take dragged;
    strum_eighths(dragged, 20, -5, 30);
    CHECK(words(dragged) == "off_beats dragged 20 of 20");
    Take behind;
    strum_eighths(behind, 20, 30, 45);
    CHECK(words(behind).empty());
    Take few;
    strum_eighths(few, 11, 0, -60);
    CHECK(words(few).empty());
}

TEST_CASE("on beats that come late there is nothing to see of the off-beats") {
    Take take;
    strum_eighths(take, 20, 110, 0);
    CHECK(words(take).empty());
}

TEST_CASE("a place that waits or is left out is one, and a way of comping is neither") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        auto& waits = take.at(time, 7);
        waits.verdict = Verdict::placed;
        waits.beats_in = 1;
        waits.lateness = time::Seconds(0.012);
        if (time < 6) take.at(time, 20).verdict = Verdict::laid_out;
    }
    CHECK(words(take) ==
          "wait wait 6 of 6, bar 7, Cm7 to F7; left_out left_out 5 of 6, bar 20, Em7 to E♭7");
    CHECK(take.habits().front().cost == Approx(1.5));
    for (std::size_t n = 0; n < take.changes.size(); n += 2) {
        take.changes[n].verdict = Verdict::placed;
        take.changes[n].beats_in = 1;
        take.changes[n + 1].verdict = Verdict::laid_out;
    }
    CHECK(words(take).empty());
}

TEST_CASE("a transition that waits wherever it stands is one wait without a bar") {
    Take take;
    for (int time = 1; time <= times_through; ++time) {
        for (const int bar : {5, 18}) {
            take.at(time, bar).verdict = Verdict::placed;
            take.at(time, bar).beats_in = 1;
        }
    }
    CHECK(words(take) == "wait wait 12 of 12, Dm7 to G7");
}

TEST_CASE("a seam, what is uncertain and what was played astray are no cases") {
    Take seams;
    Take uncertain;
    Take astray;
    for (int time = 1; time <= times_through; ++time) {
        for (auto* take : {&seams, &uncertain}) be_late(take->at(time, 1));
        seams.at(time, 1).seam = true;
        uncertain.at(time, 1).uncertain = true;
        astray.at(time, 1).verdict = Verdict::astray;
    }
    for (const auto& take : {seams, uncertain, astray}) CHECK(words(take).empty());
}

TEST_CASE("of no changes, or of two that are always wrong, no habit is said") {
    CHECK(assess::find_habits({}, {}).empty());
    Take take;
    take.changes.resize(2);
    for (auto& change : take.changes) be_late(change);
    CHECK(words(take).empty());
}
