#include "assess/six_times.hpp"
#include "support/catch.hpp"

using namespace compline;
using namespace compline::tests;

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

TEST_CASE("late after wide moves, after fills and into sections, each is named for what it is") {
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

TEST_CASE("where all chords are of one kind, it is the player and not the kind") {
    Take take;
    for (auto& change : take.changes) {
        change.to.quality = harmony::Quality::dominant_seventh;
        change.to.alterations = {};
        if (change.bar % 4 != 0) be_late(change);
    }
    CHECK(words(take).find("quality") == std::string::npos);
}
