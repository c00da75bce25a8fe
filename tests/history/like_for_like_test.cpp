// Evenings compared as if the same places had been played on each.

#include "history/weeks.hpp"
#include "support/catch.hpp"

#include <compline/history/story.hpp>
#include <compline/simulate/chance.hpp>

#include <cmath>

using namespace compline;
using namespace compline::history;
using namespace compline::tests;

namespace {

double plain(const TuneHistory& tune, const std::string& date) {
    double in_time = 0;
    int of = 0;
    for (const auto& row : tune.places) {
        if (row.date != date) continue;
        in_time += row.sums.in_time;
        of += row.sums.of;
    }
    return in_time / of;
}

/// What the fit makes least, worked out another way: over and over, each evening and each place
/// set to what is best for it while the others stand.
std::vector<double> by_turns(const std::vector<std::vector<Went>>& evenings, int places) {
    std::vector<double> of_evening(evenings.size());
    std::vector<double> of_place(static_cast<std::size_t>(places) + 1);
    std::vector<double> counts(of_place.size());
    for (const auto& evening : evenings) {
        for (const auto& went : evening) counts[static_cast<std::size_t>(went.bar)] += went.of;
    }
    for (int turn = 0; turn < 20000; ++turn) {
        for (std::size_t e = 0; e < evenings.size(); ++e) {
            double sum = 0;
            double of = 0;
            for (const auto& went : evenings[e]) {
                sum += went.right - went.of * of_place[static_cast<std::size_t>(went.bar)];
                of += went.of;
            }
            of_evening[e] = sum / of;
        }
        std::vector<double> sum(of_place.size());
        for (std::size_t e = 0; e < evenings.size(); ++e) {
            for (const auto& went : evenings[e])
                sum[static_cast<std::size_t>(went.bar)] += went.right - went.of * of_evening[e];
        }
        for (std::size_t p = 1; p < of_place.size(); ++p) of_place[p] = sum[p] / (counts[p] + 1);
    }
    double mean = 0;
    double all = 0;
    for (std::size_t p = 1; p < of_place.size(); ++p) {
        mean += counts[p] * of_place[p];
        all += counts[p];
    }
    for (auto& value : of_evening) value += mean / all;
    return of_evening;
}

}  // namespace

TEST_CASE("evenings that played the same places stand by their plain shares", "[history]") {
    Weeks weeks;
    weeks.on(0, {{1, 4, 3}, {2, 8, 2}, {3, 4, 4}});
    weeks.on(1, {{1, 2, 1}, {2, 4, 3}, {3, 2, 2}});
    weeks.on(3, {{1, 6, 5}, {2, 12, 6}, {3, 6, 6}});
    const auto points = like_for_like(weeks.it);
    REQUIRE(points.size() == 3);
    CHECK(points[0].value == Approx(9.0 / 16));
    CHECK(points[1].value == Approx(6.0 / 8));
    CHECK(points[2].value == Approx(17.0 / 24));
    CHECK(points[2].day - points[0].day == 3);
}

TEST_CASE("an evening of looping the hardest bars does not look like a bad one", "[history]") {
    Weeks weeks;
    for (int day = 0; day < 8; ++day) {
        if (day % 2 == 0) {
            weeks.on(day, {{1, 10, 9}, {2, 10, 9}, {3, 10, 9}, {4, 10, 3}});
        } else {
            weeks.on(day, {{4, 60, 18}});
        }
    }
    const auto points = like_for_like(weeks.it);
    REQUIRE(points.size() == 8);
    for (const auto& point : points) CHECK(point.value == Approx(points[0].value).margin(0.015));
    CHECK(plain(weeks.it, Weeks::day(0)) - plain(weeks.it, Weeks::day(1)) == Approx(0.45));
}

TEST_CASE("a comparison of evenings is the one of least squares", "[history]") {
    simulate::Chance chance(3);
    Weeks weeks;
    std::vector<std::vector<Went>> evenings;
    for (int day = 0; day < 12; ++day) {
        evenings.emplace_back();
        for (int bar = 1; bar <= 6; ++bar) {
            const int of = 1 + static_cast<int>(chance.below(9));
            const int right = static_cast<int>(chance.below(static_cast<unsigned>(of) + 1));
            if (chance.below(3) > 0 || bar == 1) evenings.back().push_back({bar, of, right});
        }
        weeks.on(day, evenings.back());
    }
    const auto points = like_for_like(weeks.it);
    const auto expected = by_turns(evenings, 6);
    REQUIRE(points.size() == expected.size());
    for (std::size_t i = 0; i < points.size(); ++i)
        CHECK(points[i].value == Approx(expected[i]).margin(1e-9));
}

TEST_CASE("evenings with no bar in common are not compared but stand by their own shares",
          "[history]") {
    Weeks weeks;
    weeks.on(0, {{1, 10, 9}, {2, 30, 23}});
    weeks.on(1, {{9, 20, 1}, {10, 60, 19}});
    const auto apart = like_for_like(weeks.it);
    REQUIRE(apart.size() == 2);
    CHECK(apart[0].value == Approx(0.8));
    CHECK(apart[1].value == Approx(0.25));

    // One missed change in common does not make the whole evening a bad one.
    weeks.on(2, {{1, 1, 0}, {20, 30, 24}, {21, 30, 24}, {22, 30, 24}});
    const auto nearly = like_for_like(weeks.it);
    CHECK(nearly[2].value == Approx(0.8).margin(0.15));
}

TEST_CASE("an evening of which nothing counts is no evening", "[history]") {
    Weeks weeks;
    weeks.on(0, {{1, 4, 3}});
    weeks.on(1, {{1, 0, 0}});
    weeks.on(2, {});
    weeks.on(3, {{1, 4, 4}});
    CHECK(like_for_like(weeks.it).size() == 2);
    CHECK(like_for_like(TuneHistory{}).empty());
}

TEST_CASE("a bar played in two keys on one evening is one bar", "[history]") {
    Weeks weeks;
    weeks.on(0, {{1, 4, 3}, {1, 4, 1, "Dm7", "G7", "G"}, {2, 8, 8}});
    weeks.on(1, {{1, 8, 4}, {2, 8, 7}});
    const auto points = like_for_like(weeks.it);
    REQUIRE(points.size() == 2);
    CHECK(points[0].value == Approx(0.75));
    CHECK(points[1].value == Approx(11.0 / 16));
}

namespace {

/// So many evenings with a loop that goes well; on the first of them the tune is played whole, each
/// time by a point better, and faster.
TuneHistory loops_and(int whole_evenings, int all_evenings) {
    TuneHistory tune;
    for (int i = 0; i < all_evenings; ++i) {
        TuneEvening evening;
        evening.date = date_of(20000 + i);
        evening.sums = {200, 190, 200, 190, 4};
        evening.usual_bpm = 96;
        if (i < whole_evenings) {
            evening.whole = {100, 60 + i, 100, 60 + i, 20};
            evening.whole_bpm = 120 + i;
        }
        tune.evenings.push_back(evening);
        PlaceEvening place;
        place.date = evening.date;
        place.sums = evening.sums;
        tune.places.push_back(place);
    }
    return tune;
}

}  // namespace

TEST_CASE(
    "where the tune was played whole often enough, loops say nothing of whether it got better",
    "[history]") {
    const auto story = story_of(loops_and(8, 8));
    CHECK(story.by_whole_tunes);
    CHECK(story.trend.course == Course::better);
    CHECK(story.tempo_trend.course == Course::better);
    REQUIRE(story.then_and_now);
    CHECK(story.then_and_now->then_share < 0.65);
    CHECK(story.then_and_now->now_bpm > 123);
    CHECK(like_for_like(loops_and(8, 8)).front().value == Approx(0.6));
}

TEST_CASE("where it was played whole on few evenings, all that was played is compared",
          "[history]") {
    for (const auto& [whole, all] : {std::pair{5, 8}, {6, 13}}) {
        const auto story = story_of(loops_and(whole, all));
        CHECK(!story.by_whole_tunes);
        CHECK(story.trend.evenings == all);
        CHECK(like_for_like(loops_and(whole, all)).front().value == Approx(0.95));
    }
    CHECK(story_of(loops_and(6, 12)).by_whole_tunes);
}
