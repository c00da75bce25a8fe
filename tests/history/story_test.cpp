// What weeks of practice came to, told of a tune.

#include "history/weeks.hpp"
#include "support/catch.hpp"

#include <compline/history/advice.hpp>
#include <compline/history/story.hpp>

using namespace compline;
using namespace compline::history;
using namespace compline::tests;

namespace {

/// Bars 1 to 4 as well as is said, on an evening.
std::vector<Went> bars(int right_of_ten, int times = 10) {
    std::vector<Went> places;
    for (int bar = 1; bar <= 4; ++bar) places.push_back({bar, times, right_of_ten * times / 10});
    return places;
}

}  // namespace

TEST_CASE("a tune is compared with itself four weeks ago", "[history]") {
    Weeks weeks;
    weeks.on(0, bars(3)).usual_bpm = 100;
    weeks.on(9, bars(5)).usual_bpm = 104;  // a week that ended four weeks before the last
    weeks.on(14, bars(6)).usual_bpm = 108;
    weeks.on(20, bars(7)).usual_bpm = 112;  // neither then nor now
    weeks.on(38, bars(8)).usual_bpm = 120;
    weeks.on(42, bars(9)).usual_bpm = 132;
    const auto story = story_of(weeks.it);
    REQUIRE(story.then_and_now);
    CHECK(story.then_and_now->then_from == Weeks::day(9));
    CHECK(story.then_and_now->then_to == Weeks::day(14));
    CHECK(story.then_and_now->now_from == Weeks::day(38));
    CHECK(story.then_and_now->now_to == Weeks::day(42));
    CHECK(story.then_and_now->then_share == Approx(0.55));
    CHECK(story.then_and_now->now_share == Approx(0.85));
    CHECK(story.then_and_now->then_bpm == 106);
    CHECK(story.then_and_now->now_bpm == 126);
    CHECK(story.trend.course == Course::better);
}

TEST_CASE("a tune of a few evenings is compared by its first third and its last", "[history]") {
    Weeks weeks;
    weeks.on(0, bars(5));
    CHECK(!story_of(weeks.it).then_and_now);
    weeks.on(1, bars(7));
    auto both = story_of(weeks.it).then_and_now;
    REQUIRE(both);
    CHECK(both->then_share == Approx(0.5));
    CHECK(both->now_share == Approx(0.7));
    for (int day = 2; day < 8; ++day) weeks.on(day, bars(8));
    both = story_of(weeks.it).then_and_now;
    CHECK(both->then_to == Weeks::day(1));
    CHECK(both->now_from == Weeks::day(6));
}

TEST_CASE("evenings, minutes and takes are counted, from a date on if asked", "[history]") {
    Weeks weeks;
    for (int day = 0; day < 7; ++day) weeks.on(day, bars(day + 2));
    weeks.it.tempi = {{96, sums(40, 30), 4, 1, Weeks::day(2)},
                      {120, sums(40, 30), 4, 1, Weeks::day(6)}};
    const auto all = story_of(weeks.it);
    CHECK(all.evenings == 7);
    CHECK(all.takes == 14);
    CHECK(all.seconds == 4200);
    CHECK(all.first_played == Weeks::day(0));
    CHECK(all.last_played == Weeks::day(6));
    CHECK(all.tempi.size() == 2);
    CHECK(all.lately.of == 80);
    CHECK(all.lately.in_time == 60);
    CHECK(all.trend.course == Course::better);

    const auto since = story_of(weeks.it, Weeks::day(4));
    CHECK(since.evenings == 3);
    CHECK(since.first_played == Weeks::day(4));
    CHECK(since.trend.course == Course::too_few);
    CHECK(since.tempi.size() == 1);
    CHECK(since.lately.of == 40);
    REQUIRE(since.then_and_now);
    CHECK(since.then_and_now->then_share == Approx(0.6));

    const auto later = story_of(weeks.it, "2027-01-01");
    CHECK(later.evenings == 0);
    CHECK(!later.then_and_now);
    CHECK(later.weakest.empty());
}

TEST_CASE("a tempo is clean since the evening on which it was first reached", "[history]") {
    Weeks weeks;
    weeks.whole(0, 112);
    weeks.whole(2, 120);
    weeks.whole(20, 132);
    weeks.whole(25, 120);
    weeks.whole(31, 132);
    const auto clean = story_of(weeks.it).clean;
    REQUIRE(clean);
    CHECK(clean->bpm == 132);
    CHECK(clean->since == Weeks::day(20));
    CHECK(clean->before == 120.0);
    CHECK(!story_of(weeks.it, Weeks::day(20)).clean->before);

    Weeks never;
    never.whole(0, 0);
    CHECK(!story_of(never.it).clean);
}

TEST_CASE("the weakest places come first and what is clean is not among them", "[history]") {
    Weeks weeks;
    for (int day = 0; day < 3; ++day) {
        std::vector<Went> places;
        for (int bar = 1; bar <= 8; ++bar) places.push_back({bar, 10, bar});
        places.push_back({9, 10, 10});
        weeks.on(day, places);
    }
    const auto story = story_of(weeks.it);
    REQUIRE(story.weakest.size() == most_told);
    for (int i = 0; i < 5; ++i) CHECK(story.weakest[static_cast<std::size_t>(i)].bar == i + 1);
    CHECK(story.weakest[0].lately.of == 30);
    CHECK(story.weakest[0].missed == 27);
    CHECK(story.weakest[0].cost_each() == Approx(0.9));

    const auto places = places_of(weeks.it);
    REQUIRE(places.size() == 9);
    CHECK(places[8].bar == 9);
    CHECK(places[8].sums.both == 30);
    CHECK(places_of(weeks.it, Weeks::day(2))[8].sums.both == 10);
}

TEST_CASE("what was weak and is mended is not weak", "[history]") {
    Weeks weeks;
    for (int day = 0; day < 10; ++day) weeks.on(day, {{1, 10, 1}, {2, 10, 7}});
    for (int day = 40; day < 43; ++day) weeks.on(day, {{1, 10, 10}, {2, 10, 7}});
    const auto story = story_of(weeks.it);
    REQUIRE(story.weakest.size() == 1);
    CHECK(story.weakest[0].bar == 2);
    CHECK(story.weakest[0].sums.of == 130);
    CHECK(story.weakest[0].lately.of == 30);
}

TEST_CASE("a transition that was weak and is mended is not weak", "[history]") {
    Weeks weeks;
    for (int day = 0; day < 10; ++day) weeks.on(day, {{1, 10, 1, "Gm7", "C7"}});
    for (int day = 40; day < 43; ++day) weeks.on(day, {{1, 10, 10, "Gm7", "C7"}});
    CHECK(story_of(weeks.it).transitions.empty());
    weeks.on(43, {{1, 10, 3, "Gm7", "C7"}});
    const auto transitions = story_of(weeks.it).transitions;
    REQUIRE(transitions.size() == 1);
    CHECK(transitions[0].sums.of == 140);
    CHECK(transitions[0].lately.of == 40);
}

TEST_CASE("of a tune that is seldom played its last three evenings are lately", "[history]") {
    Weeks weeks;
    weeks.on(0, {{1, 10, 0}});
    weeks.on(50, {{1, 10, 5}});
    weeks.on(100, {{1, 10, 5}});
    weeks.on(150, {{1, 10, 5}});
    const auto story = story_of(weeks.it);
    REQUIRE(story.weakest.size() == 1);
    CHECK(story.weakest[0].lately.of == 30);
}

TEST_CASE("one evening, few changes or one mistake make no place weak", "[history]") {
    Weeks weeks;
    weeks.on(0, {{1, 10, 0}, {2, 1, 0}, {3, 2, 1}, {4, 2, 1}});
    weeks.on(1, {{2, 1, 0}, {3, 2, 2}, {4, 2, 1}});
    const auto story = story_of(weeks.it);
    REQUIRE(story.weakest.size() == 1);
    CHECK(story.weakest[0].bar == 4);
}

TEST_CASE("a bar whose chords were changed is another place", "[history]") {
    Weeks weeks;
    weeks.on(0, {{7, 10, 1, "Gm7", "C7"}});
    weeks.on(1, {{7, 10, 5, "Gm7", "Gb7"}});
    weeks.on(2, {{7, 10, 6, "Abm7", "Gb7"}});
    const auto places = places_of(weeks.it);
    REQUIRE(places.size() == 3);
    CHECK(places[0].to == "C7");
    CHECK(places[2].from == "Abm7");
}

TEST_CASE("a lucky first evening does not make a place stuck for good", "[history]") {
    Weeks weeks;
    weeks.on(0, {{1, 1, 1}});
    for (int day = 1; day < 5; ++day) weeks.on(day, {{1, 10, 5 + day}});
    CHECK(places_of(weeks.it).at(0).stuck_for <= 1);
}

TEST_CASE("evenings without getting better are counted up to the last", "[history]") {
    Weeks weeks;
    weeks.on(0, {{1, 10, 3}, {2, 10, 3}});
    CHECK(places_of(weeks.it).at(0).stuck_for == 0);
    for (int day = 1; day <= 4; ++day) weeks.on(day, {{1, 10, 3}, {2, 10, 3 + day}});
    const auto places = places_of(weeks.it);
    CHECK(places.at(0).stuck_for == 4);
    CHECK(places.at(1).stuck_for == 0);
    // A plateau counts from where it was reached, over three evenings together.
    for (int day = 5; day <= 9; ++day) weeks.on(day, {{1, 10, 3}, {2, 10, 7}});
    CHECK(places_of(weeks.it).at(1).stuck_for >= 3);
    CHECK(places_of(weeks.it).at(1).stuck_for <= 4);
}

TEST_CASE("how late a place is on average is of those that are late", "[history]") {
    Weeks weeks;
    weeks.on(0, {{1, 4, 2}});
    weeks.it.places.back().late = 2;
    weeks.it.places.back().late_ms = 180;
    weeks.on(1, {{1, 4, 3}});
    weeks.it.places.back().late = 1;
    weeks.it.places.back().late_ms = 120;
    const auto place = places_of(weeks.it).at(0);
    CHECK(place.late == 3);
    CHECK(place.late_ms == Approx(100));
    CHECK(place.evenings == 2);
    CHECK(place.last == Weeks::day(1));
    CHECK(place.section == "A");
}

TEST_CASE("two chords are one transition wherever they come", "[history]") {
    Weeks weeks;
    for (int day = 0; day < 2; ++day) {
        weeks.on(day, {{1, 10, 10, "", "F6"},
                       {3, 5, 2, "Gm7", "C7"},
                       {7, 5, 3, "Gm7", "C7"},
                       {9, 10, 3, "Em7b5", "A7"}});
    }
    const auto transitions = story_of(weeks.it).transitions;
    REQUIRE(transitions.size() == 2);
    CHECK(transitions[0].from == "Em7b5");
    CHECK(transitions[0].to == "A7");
    CHECK(transitions[1].bars == std::vector<int>{3, 7});
    CHECK(transitions[1].sums.of == 20);
    CHECK(transitions[1].evenings == 2);
}

TEST_CASE("a transition is named as it sounded in the key that was played", "[history]") {
    Weeks weeks;  // in F
    for (int day = 0; day < 2; ++day) {
        weeks.on(day, {{3, 10, 2, "Gm7", "C7", "G"}, {5, 10, 3, "Am7", "D7"}});
        weeks.it.places.push_back(weeks.it.places.back());
        weeks.it.places.back().bar = 7;
        weeks.it.places.back().from = "Gm7";
        weeks.it.places.back().to = "C7";
    }
    const auto transitions = story_of(weeks.it).transitions;
    REQUIRE(transitions.size() == 2);
    // Gm7 to C7 in F is Am7 to D7 in G.
    CHECK(transitions[0].from == "Am7");
    CHECK(transitions[0].bars == std::vector<int>{3, 5});
    CHECK(transitions[1].from == "Gm7");
    CHECK(transitions[1].bars == std::vector<int>{7});
}

TEST_CASE("a transition is the same by whatever name the key gives it", "[history]") {
    Weeks weeks;
    for (int day = 0; day < 2; ++day)
        weeks.on(day, {{3, 10, 2, "G#m7", "C#7"}, {5, 10, 3, "Abm7", "Db7"}});
    const auto transitions = story_of(weeks.it).transitions;
    REQUIRE(transitions.size() == 1);
    CHECK(transitions[0].from == "G#m7");
    CHECK(transitions[0].sums.of == 40);
}

TEST_CASE("what cannot be named any more is left out of the transitions alone", "[history]") {
    Weeks weeks;
    weeks.it.tune.chart_text = "no chart";
    weeks.it.bars = 0;
    for (int day = 0; day < 2; ++day)
        weeks.on(day,
                 {{3, 10, 2, "Gm7", "C7", "G"}, {5, 10, 2, "Gm7", "?"}, {6, 10, 2, "C7", "F6"}});
    const auto story = story_of(weeks.it);
    REQUIRE(story.transitions.size() == 1);
    CHECK(story.transitions[0].from == "C7");
    CHECK(story.weakest.size() == 3);
}

TEST_CASE("a tune is due again after twice as many days each clean evening", "[history]") {
    Spacing spacing;
    CHECK(spacing.due().empty());
    spacing.played("2026-11-03", true);
    CHECK(spacing.due() == "2026-11-04");
    for (const int days : {2, 4, 8, 16, 32, 32}) {
        spacing.played("2026-11-03", true);
        CHECK(spacing.days() == days);
    }
    spacing.played("2026-12-20", false);
    CHECK(spacing.days() == 16);
    CHECK(spacing.due() == "2027-01-05");
    for (int i = 0; i < 6; ++i) spacing.played("2026-12-21", false);
    CHECK(spacing.days() == 1);
}

TEST_CASE("only whole tunes move the day, and slow ones do not move it away", "[history]") {
    Weeks weeks;
    weeks.on(0, bars(5));
    CHECK(story_of(weeks.it).due.empty());
    weeks.whole(1, 120);
    weeks.whole(3, 110);  // nine tenths of 120 and more
    weeks.whole(5, 126);
    CHECK(story_of(weeks.it).spacing_days == 4);
    CHECK(story_of(weeks.it).due == Weeks::day(9));
    weeks.on(7, bars(5));
    CHECK(story_of(weeks.it).due == Weeks::day(9));
    weeks.whole(9, 112);  // under nine tenths of 126
    CHECK(story_of(weeks.it).spacing_days == 2);
    weeks.it.tune.drill = true;
    CHECK(story_of(weeks.it).due.empty());
}
