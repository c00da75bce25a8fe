// What to practise today, and why.

#include "history/weeks.hpp"
#include "support/catch.hpp"

#include <compline/history/advice.hpp>

using namespace compline;
using namespace compline::history;
using namespace compline::tests;

namespace {

const Today today{Weeks::day(10), std::nullopt};

/// Bar 14 weak, the rest good, on evenings that are said; as weak on each.
Weeks weak_at_14(const std::vector<int>& days, int right = 2) {
    Weeks weeks;
    for (const int day : days)
        weeks.on(day, {{3, 10, 10, "F6", "Dm7"}, {14, 10, right, "Em7b5", "A7"}});
    return weeks;
}

Weeks clean_tune(const std::string& title, const std::vector<int>& days) {
    Weeks weeks(title);
    for (const int day : days) weeks.whole(day, 120, {{3, 10, 10, "F6", "Dm7"}});
    return weeks;
}

CleanRun run(int day, int from, int to, double bpm, int in_a_row = 2) {
    return {Weeks::day(day), from, to, bpm, in_a_row};
}

Homework homework_of(const KnownTune& tune, int given = 0) {
    return {7, "", Weeks::day(given), tune, 9, 12, 96, 120};
}

std::vector<ThingKind> kinds(const std::vector<Thing>& things) {
    std::vector<ThingKind> kinds;
    for (const auto& thing : things) kinds.push_back(thing.kind);
    return kinds;
}

using K = ThingKind;
using Kinds = std::vector<ThingKind>;

}  // namespace

TEST_CASE("who has played nothing yet is asked for a first take", "[history]") {
    const auto things = advice({}, {}, today);
    REQUIRE(kinds(things) == Kinds{K::first_take});
    CHECK(things[0].minutes == 5);
    CHECK(advice({}, {}, {today.date, 3})[0].minutes == 3);
    auto drill = clean_tune("Dm7 G7", {1});
    drill.it.tune.drill = true;
    CHECK(kinds(advice({drill.it}, {}, today)) == Kinds{K::first_take});
}

TEST_CASE("the weakest place is worked on and then the whole tune is played", "[history]") {
    const auto things = advice({weak_at_14({6, 9}).it}, {}, today);
    REQUIRE(kinds(things) == Kinds{K::place, K::whole_tune});
    const auto& work = things[0];
    REQUIRE(work.place);
    CHECK(work.place->bar == 14);
    CHECK(work.place->lately.of == 20);
    CHECK(work.task == Task::ladder);
    CHECK(work.from_bar == 13);
    CHECK(work.to_bar == 16);
    CHECK(work.times == 0);
    CHECK(work.last_played == Weeks::day(9));
    CHECK(things[1].from_bar == 1);
    CHECK(things[1].to_bar == 32);
    CHECK(things[1].times == 1);
    CHECK(things[1].tune.title == "Lantern Street");
}

TEST_CASE("the evening ends with the tune that was worked on, not with another", "[history]") {
    const auto other = clean_tune("Back Stairs", {0, 1, 3, 5}).it;  // due on day 13
    const auto things = advice({other, weak_at_14({6, 9}).it}, {}, today);
    REQUIRE(kinds(things) == Kinds{K::place, K::whole_tune});
    CHECK(things[1].tune.title == "Lantern Street");
}

TEST_CASE("work begins at nine tenths of what was clean and goes for a tenth more", "[history]") {
    auto weeks = weak_at_14({6, 9});
    const auto work = [&] { return advice({weeks.it}, {}, today).at(0); };
    // Nothing was clean: up to the usual tempo.
    CHECK(work().from_bpm == 108);
    CHECK(work().to_bpm == 120);
    weeks.it.runs = {run(5, 13, 16, 112), run(6, 13, 16, 96), run(6, 13, 16, 100),
                     run(6, 13, 16, 110, 1), run(9, 1, 8, 130)};
    CHECK(work().from_bpm == 90);
    CHECK(work().to_bpm == 110);
    // Not beyond the chart's tempo, unless that is clean.
    weeks.it.chart_bpm = 104;
    CHECK(work().to_bpm == 104);
    weeks.it.chart_bpm = 100;
    CHECK(work().to_bpm == 110);
    // A whole tune holds the place; once through is enough of it.
    weeks.it.runs.push_back(run(9, 1, 32, 80, 1));
    CHECK(work().from_bpm == 72);
}

TEST_CASE("a place that does not get better for three evenings gets another task", "[history]") {
    std::vector<int> days = {1, 2, 3};
    const auto work = [&] { return advice({weak_at_14(days).it}, {}, today).at(0); };
    CHECK(work().task == Task::ladder);
    days.push_back(4);
    CHECK(work().task == Task::two_bars);
    CHECK(work().from_bar == 13);
    CHECK(work().to_bar == 14);
    CHECK(work().times > 1);
    CHECK(work().from_bpm == work().to_bpm);
    days.push_back(5);
    CHECK(work().task == Task::slower);
    CHECK(work().from_bpm == 96);
    CHECK(work().to_bar == 16);
    days.push_back(6);
    CHECK(work().task == Task::other_grips);
    days.push_back(7);
    CHECK(work().task == Task::two_bars);
}

TEST_CASE("bars to work on stay within the form", "[history]") {
    Weeks weeks("Lantern Street", 16);
    const auto bars_for = [&](int bar, int bars) {
        Weeks tune("Lantern Street", bars);
        for (const int day : {6, 9}) tune.on(day, {{bar, 10, 2}});
        const auto things = advice({tune.it}, {}, today);
        return std::pair(things[0].from_bar, things[0].to_bar);
    };
    CHECK(bars_for(1, 16) == std::pair(1, 4));
    CHECK(bars_for(2, 16) == std::pair(1, 4));
    CHECK(bars_for(15, 16) == std::pair(13, 16));
    CHECK(bars_for(16, 16) == std::pair(13, 16));
    CHECK(bars_for(2, 3) == std::pair(1, 3));
    // A coda is not asked for by bars: the whole tune alone.
    for (const int day : {6, 9}) weeks.on(day, {{18, 10, 2}});
    CHECK(kinds(advice({weeks.it}, {}, today)) == Kinds{K::whole_tune});
}

TEST_CASE("a weak place that gets better is left to go on", "[history]") {
    Weeks weeks;
    for (int day = 0; day < 8; ++day) weeks.on(day, {{14, 10, day}, {20, 10, 7}});
    const auto things = advice({weeks.it}, {}, today);
    REQUIRE(things[0].kind == K::place);
    CHECK(things[0].place->bar == 20);
}

TEST_CASE("a tune left alone for more than four weeks has no weak place today", "[history]") {
    auto old = weak_at_14({-40, -39}, 0);
    auto recent = weak_at_14({6, 9}, 5);
    old.it.tune.id = 99;
    const auto things = advice({old.it, recent.it}, {}, today);
    REQUIRE(things[0].kind == K::place);
    CHECK(things[0].tune.id == recent.it.tune.id);
    // After a long pause it goes on where it was left.
    const auto after_a_pause = advice({old.it}, {}, today);
    REQUIRE(after_a_pause[0].kind == K::place);
    CHECK(after_a_pause[0].place->bar == 14);
}

TEST_CASE("two chords that are weak in two tunes are drilled alone", "[history]") {
    const auto tune = [](const std::string& title, int right, const std::vector<int>& days) {
        Weeks weeks(title);
        for (const int day : days) {
            std::vector<Went> places = {{4, 10, right, "Gm7", "C7"}};
            for (int bar = 5; bar < 15; ++bar) places.push_back({bar, 10, 9, "C7", "F6"});
            weeks.on(day, places);
        }
        return weeks.it;
    };
    const auto one = tune("Lantern Street", 5, {5, 7});
    const auto two = tune("Back Stairs", 6, {6, 7});
    const auto things = advice({one, two}, {}, today);
    REQUIRE(kinds(things) == Kinds{K::place, K::transition, K::whole_tune});
    const auto& drill = things[1];
    CHECK(drill.changes == "Gm7 | C7 | Gm7 | C7");
    CHECK(drill.titles == std::vector<std::string>{"Lantern Street", "Back Stairs"});
    CHECK(drill.to_bar == 4);
    CHECK(drill.from_bpm == 108);
    CHECK(drill.to_bpm == 120);
    REQUIRE(drill.transition);
    CHECK(drill.transition->sums.of == 40);
    CHECK(drill.transition->evenings == 3);
    CHECK(drill.transition->bars.empty());
    CHECK(things[2].tune.title == "Lantern Street");

    // In one tune alone, on two evenings alone, or hardly worse than the rest: no drill.
    CHECK(advice({one, tune("Back Stairs", 9, {6, 7})}, {}, today).size() == 2);
    CHECK(advice({one, tune("Back Stairs", 6, {5, 7})}, {}, today).size() == 2);
    auto all_weak = one;
    for (auto& row : all_weak.places) {
        if (row.bar > 4) row.sums = sums(10, 6);
    }
    CHECK(advice({all_weak, two}, {}, today).size() == 2);
}

TEST_CASE("two chords that get better in several tunes are not drilled", "[history]") {
    Weeks one("Lantern Street");
    Weeks two("Back Stairs");
    for (int day = 0; day < 8; ++day) {
        for (auto* weeks : {&one, &two})
            weeks->on(day, {{4, 10, day, "Gm7", "C7"}, {5, 90, 85, "C7", "F6"}});
    }
    CHECK(kinds(advice({one.it, two.it}, {}, today)) == Kinds{K::whole_tune});
}

TEST_CASE("of the tunes that are due the most overdue is played", "[history]") {
    // Due on the days 3, 6 and 13.
    const auto one = clean_tune("Back Stairs", {0, 1});
    const auto two = clean_tune("Lantern Street", {4, 5}).it;
    const auto later = clean_tune("Blue Kettle", {0, 1, 3, 5}).it;
    auto things = advice({two, one.it, later}, {}, today);
    REQUIRE(kinds(things) == Kinds{K::due});
    CHECK(things[0].tune.title == "Back Stairs");
    CHECK(things[0].due == Weeks::day(3));
    CHECK(things[0].last_played == Weeks::day(1));
    CHECK(things[0].from_bpm == 120);
    things = advice({weak_at_14({6, 9}).it, one.it}, {}, today);
    CHECK(kinds(things) == Kinds{K::place, K::due});
}

TEST_CASE("with nothing weak and nothing due the tune longest not played comes", "[history]") {
    const auto one = clean_tune("Back Stairs", {0, 1, 3, 5}).it;  // due on day 13
    const auto two = clean_tune("Blue Kettle", {0, 1, 3, 4}).it;  // on day 12
    const auto things = advice({one, two}, {}, today);
    REQUIRE(kinds(things) == Kinds{K::whole_tune});
    CHECK(things[0].tune.title == "Blue Kettle");
    CHECK(things[0].due == Weeks::day(12));
}

TEST_CASE("homework comes first until its top was clean on two evenings", "[history]") {
    auto weeks = weak_at_14({6, 9});
    const auto homework = homework_of(weeks.it.tune, 2);
    const auto first = [&](const Today& on) { return advice({weeks.it}, {homework}, on).at(0); };
    CHECK(kinds(advice({weeks.it}, {homework}, today)) ==
          Kinds{K::homework, K::place, K::whole_tune});
    CHECK(first(today).from_bar == 9);
    CHECK(first(today).to_bar == 12);
    CHECK(first(today).from_bpm == 96);
    CHECK(first(today).to_bpm == 120);
    CHECK(first(today).homework->id == 7);
    CHECK(first(today).days_done == 0);

    weeks.it.runs = {run(6, 9, 12, 120)};
    CHECK(first(today).days_done == 1);
    CHECK(first(today).from_bpm == 108);
    // What is clean today cannot be done again today.
    CHECK(first({Weeks::day(6), std::nullopt}).kind == K::place);
    weeks.it.runs.push_back(run(9, 9, 12, 124));
    CHECK(first(today).kind == K::place);
}

TEST_CASE("homework is done by its bars at its top, twice in a row, once it is given",
          "[history]") {
    const auto homework = homework_of({}, 2);
    const auto days = [&](const CleanRun& one) { return done_on(homework, {one}).size(); };
    CHECK(days(run(3, 9, 12, 120)) == 1);
    CHECK(days(run(3, 8, 12, 120)) == 1);
    CHECK(days(run(3, 8, 13, 126)) == 1);
    CHECK(days(run(1, 9, 12, 120)) == 0);
    CHECK(days(run(3, 9, 12, 118)) == 0);
    CHECK(days(run(3, 9, 11, 120)) == 0);
    CHECK(days(run(3, 7, 12, 120)) == 0);
    CHECK(days(run(3, 1, 32, 120)) == 0);
    CHECK(days(run(3, 9, 12, 120, 1)) == 0);
    auto long_one = homework;
    long_one.from_bar = 1;
    long_one.to_bar = 32;
    CHECK(done_on(long_one, {run(3, 1, 32, 120, 1)}).size() == 1);
    CHECK(done_on(homework, {run(3, 9, 12, 120), run(3, 9, 12, 124), run(5, 9, 12, 120),
                             run(6, 9, 12, 120)}) ==
          std::vector<std::string>{Weeks::day(3), Weeks::day(5)});
}

TEST_CASE("homework of a tune that was never played is asked for all the same", "[history]") {
    KnownTune tune;
    tune.id = 3;
    tune.title = "Blue Kettle";
    const auto things = advice({}, {homework_of(tune)}, today);
    REQUIRE(kinds(things) == Kinds{K::homework});
    CHECK(things[0].tune.title == "Blue Kettle");
}

TEST_CASE("of much homework the longest given comes first and a tune still ends it", "[history]") {
    const auto weeks = weak_at_14({6, 9});
    auto one = homework_of(weeks.it.tune, 5);
    auto two = homework_of(weeks.it.tune, 2);
    auto three = homework_of(weeks.it.tune, 4);
    const auto things = advice({weeks.it}, {one, two, three}, today);
    REQUIRE(kinds(things) == Kinds{K::homework, K::homework, K::whole_tune});
    CHECK(things[0].homework->given == Weeks::day(2));
    CHECK(things[1].homework->given == Weeks::day(4));
}

TEST_CASE("minutes are as many as the bars take", "[history]") {
    // 32 bars of four beats at 120 take 64 seconds: two minutes, begun.
    auto weeks = clean_tune("Lantern Street", {0, 1});
    CHECK(advice({weeks.it}, {}, today)[0].minutes == 2);
    weeks.it.beats_a_bar = 3;
    CHECK(advice({weeks.it}, {}, today)[0].minutes == 1);
    // A ladder 108, 112, 116, 120 of four bars: three times through each (two, and half again), and
    // a bar of sticks. 13 bars of 4 beats are 28.9, 27.9, 26.9 and 26 seconds.
    CHECK(advice({weak_at_14({6, 9}).it}, {}, today)[0].minutes == 2);
}

TEST_CASE("looking for other grips takes minutes of its own, and fewer times fewer", "[history]") {
    // Four bars of four beats at 108, eight times, take 71 seconds; two minutes of looking.
    const auto weeks = weak_at_14({1, 2, 3, 4, 5, 6});
    const auto things = advice({weeks.it}, {}, today);
    REQUIRE(things[0].task == Task::other_grips);
    CHECK(things[0].from_bpm == 108);
    CHECK(things[0].minutes == 4);
    const auto brief = advice({weeks.it}, {}, {today.date, 5});
    REQUIRE(brief.size() == 2);
    CHECK(brief[0].minutes == 3);
    CHECK(brief[0].times * 2 == things[0].times);
}

TEST_CASE("minutes that are left are filled with times through, as far as a hand bears it",
          "[history]") {
    const auto weeks = weak_at_14({1, 2, 3, 4, 5, 6, 9});
    const auto all = advice({weeks.it}, {}, today);
    REQUIRE(all.size() == 2);
    int before = 0;
    for (int minutes = all[0].minutes + all[1].minutes; minutes <= 60; ++minutes) {
        const auto things = advice({weeks.it}, {}, {today.date, minutes});
        INFO(minutes << " minutes");
        REQUIRE(things.size() == 2);
        const int sum = things[0].minutes + things[1].minutes;
        CHECK(sum <= minutes);
        CHECK(sum >= before);
        CHECK(things[0].minutes <= 10);
        CHECK(things[1].times <= 4);
        before = sum;
    }
    CHECK(before > all[0].minutes + all[1].minutes);
}

TEST_CASE("few minutes make times through fewer, then things, down to one", "[history]") {
    const auto weeks = weak_at_14({1, 2, 3, 4, 5, 6, 9});  // other grips, and more of the same
    const auto homework = homework_of(weeks.it.tune);
    const auto at = [&](std::optional<int> minutes) {
        return advice({weeks.it}, {homework}, {today.date, minutes});
    };
    const auto sum = [](const std::vector<Thing>& things) {
        int minutes = 0;
        for (const auto& thing : things) minutes += thing.minutes;
        return minutes;
    };
    const auto all = at(std::nullopt);
    REQUIRE(all.size() == 3);
    CHECK(kinds(at(sum(all))) == kinds(all));
    for (int minutes = 1; minutes <= sum(all); ++minutes) {
        const auto things = at(minutes);
        INFO(minutes << " minutes");
        REQUIRE(!things.empty());
        CHECK(things[0].kind == K::homework);
        CHECK(things[0].to_bpm == 120);
        if (things.size() > 1) {
            CHECK(sum(things) <= minutes);
            CHECK(things.back().kind == K::whole_tune);
        }
    }
    CHECK(at(1).size() == 1);

    auto ladder = weak_at_14({6, 9});
    ladder.it.runs = {run(6, 13, 16, 60)};
    const auto wide = advice({ladder.it}, {}, today);
    const auto brief = advice({ladder.it}, {}, {today.date, sum(wide) - 1});
    REQUIRE(brief.size() == 2);
    CHECK(brief[0].to_bpm == 60);
}

TEST_CASE("a tune whose chart cannot be read any more is not asked for", "[history]") {
    auto weeks = weak_at_14({6, 9});
    weeks.it.bars = 0;
    CHECK(kinds(advice({weeks.it}, {}, today)) == Kinds{K::first_take});
}
