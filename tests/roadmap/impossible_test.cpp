#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/refusal.hpp"

#include <compline/roadmap/road_map.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <optional>
#include <string>
#include <vector>

using namespace compline;
using roadmap::Asked;
using roadmap::Decision;
using roadmap::everybody;
using roadmap::LaysOut;
using roadmap::NewTempo;
using roadmap::NewWay;
using roadmap::Paused;
using roadmap::RoadMap;
using roadmap::Stopped;
using roadmap::Waited;
using time::Bpm;

namespace {

/// How a road map of twelve bars is refused; empty when it is not.
std::string refused(const Asked& asked, const std::vector<Decision>& decided = {}, int bars = 12) {
    return tests::refusal([&] { (void)RoadMap(tests::bare_bars(bars), asked, decided); });
}

Asked whole(std::optional<int> times) { return Asked::of({1, 12}, times); }

std::string refused(const char* silence, std::optional<int> times) {
    auto asked = whole(times);
    asked.silence = roadmap::read_silence(silence);
    return refused(asked);
}

}  // namespace

TEST_CASE("a road map without bars is refused") {
    CHECK(refused(Asked()) == "the road map has no bars: there is nothing to play");
    CHECK(refused(Asked::of({1, 1}, 1), {}, 0) ==
          "the road map has no bars: there is nothing to play");
}

TEST_CASE("20,000 bars are the most that a road map has") {
    const auto bars = [](int count) {
        Asked asked = Asked::of({1, 10}, count / 10);
        if (count % 10 > 0) asked.way.stretches.push_back({{1, count % 10}, "", {}, false});
        return asked;
    };
    CHECK(refused(bars(20000)).empty());
    CHECK(refused(bars(20001)) == "the road map has 20001 bars: 20000 are the most");
}

TEST_CASE("bars that the chart does not have are refused, with those it has") {
    CHECK(refused(Asked::of({9, 13}, 1)) ==
          "bars 9 to 13 are to be played: the chart has bars 1 to 12");
    CHECK(refused(Asked::of({0, 4}, 1)) ==
          "bars 0 to 4 are to be played: the chart has bars 1 to 12");
    CHECK(refused(Asked::of({5, 4}, std::nullopt)) ==
          "bars 5 to 4 are to be played: the chart has bars 1 to 12");
    CHECK(refused(Asked::of({12, 12}, 1)).empty());
}

TEST_CASE("a tempo that nobody plays is refused, and the bar is named") {
    auto asked = whole(2);
    asked.tempo = Bpm(29);
    CHECK(refused(asked) == "bar 1: 29 quarter notes a minute: 30 to 400 can be played");
    asked.tempo = Bpm(29.99);
    CHECK(refused(asked) == "bar 1: 29.99 quarter notes a minute: 30 to 400 can be played");
    for (const double bpm : {30.0, 400.0}) {
        asked.tempo = Bpm(bpm);
        CHECK(refused(asked).empty());
    }
    CHECK(refused(whole(2), {{9, NewTempo{Bpm(401)}}}) ==
          "from bar 9: 401 quarter notes a minute: 30 to 400 can be played");
    CHECK(refused(whole(2), {{9, NewTempo{Bpm(400)}}}).empty());
}

TEST_CASE("a silence that is longer than what is played is refused") {
    CHECK(refused("4:13", 1) ==
          "a silence of 13 bars: it is longer than all that is played, 12 bars");
    CHECK(refused("4:13", 2).empty());
    CHECK(refused("1:3 times", 2) ==
          "a silence of 3 times through: it is longer than all that is played, 2 times through");
    CHECK(refused("4:64", std::nullopt).empty());
}

TEST_CASE("a silence that would never come is refused") {
    CHECK(refused("12:4", 1) == "a silence after 12 bars: it would never come: 12 bars are played");
    CHECK(refused("11:4", 1).empty());
    CHECK(refused("2:1 times", 2) ==
          "a silence after 2 times through: it would never come: 2 times through are played");
    CHECK(refused("1:1 times", 2).empty());
    CHECK(refused("1:1 times", 1) ==
          "a silence after 1 time through: it would never come: 1 time through is played");
}

TEST_CASE("decisions are made in order") {
    CHECK(refused(whole(2), {{9, LaysOut{everybody}}, {8, LaysOut{everybody, false}}}) ==
          "a decision is to count from bar 8 on: bars 9 to 24 are still to come");
    CHECK(refused(whole(2), {{9, LaysOut{everybody}}, {9, NewTempo{Bpm(90)}}}).empty());
    CHECK(refused(whole(2), {{0, LaysOut{everybody}}}) ==
          "a decision is to count from bar 0 on: bars 1 to 24 are still to come");
    const RoadMap map(tests::bare_bars(12), whole(2), {{9, LaysOut{everybody}}});
    CHECK_THROWS_AS(map.with({8, LaysOut{everybody, false}}), text::BadInput);
}

TEST_CASE("nothing is decided beyond the end, or more than a day ahead") {
    CHECK(refused(whole(2), {{25, NewTempo{Bpm(90)}}}) ==
          "a decision is to count from bar 25 on: bars 1 to 24 are still to come");
    CHECK(refused(whole(2), {{24, NewTempo{Bpm(90)}}}).empty());
    CHECK(refused(whole(std::nullopt), {{200'001, LaysOut{everybody}}}).find("bars 1 to ") !=
          std::string::npos);
    CHECK(refused(whole(std::nullopt), {{199'999, LaysOut{everybody}}}).empty());
}

TEST_CASE("the music is stopped from the second bar on, and once") {
    CHECK(refused(whole(2), {{1, Stopped{}}}) ==
          "a decision is to count from bar 1 on: bars 2 to 25 are still to come");
    CHECK(refused(whole(2), {{26, Stopped{}}}) ==
          "a decision is to count from bar 26 on: bars 2 to 25 are still to come");
    CHECK(refused(whole(2), {{9, LaysOut{everybody}}, {8, Stopped{}}}) ==
          "a decision is to count from bar 8 on: bars 9 to 25 are still to come");
    CHECK(refused(whole(2), {{2, Stopped{}}}).empty());
    CHECK(refused(whole(2), {{25, Stopped{}}}).empty());
    for (const std::int64_t bar : {8, 9, 12}) {
        CHECK(refused(whole(2), {{9, Stopped{}}, {bar, LaysOut{everybody}}}) ==
              fmt::format("a decision is to count from bar {} on: the music had been stopped by "
                          "then",
                          bar));
    }
}

TEST_CASE("a wait comes of a pause, from the same bar") {
    const auto way = chart::Way::of({1, 4}, 1);
    CHECK(refused(whole(2), {{5, Waited{4, way}}}) ==
          "a decision is to count from bar 5 on: a wait: nothing was paused there");
    CHECK(refused(whole(2), {{5, Paused{}}, {6, Waited{4, way}}}) ==
          "a decision is to count from bar 6 on: it is paused from bar 5 on, and only a wait there "
          "ends that");
    CHECK(refused(whole(2), {{5, Paused{}}, {5, Waited{4, way}}}).empty());
    CHECK(refused(whole(2), {{5, Paused{}}, {5, Waited{4, way}}, {5, NewTempo{Bpm(90)}}}) ==
          "a decision is to count from bar 5 on: bars 6 to 9 are still to come");
    CHECK(refused(whole(2), {{5, Paused{}}, {5, Waited{0, way}}}) ==
          "bar 5: a wait of 0 quarter notes: 1 to 100000 can be waited");
    CHECK(refused(whole(2), {{5, Paused{}}, {5, Waited{100'001, way}}}) ==
          "bar 5: a wait of 100001 quarter notes: 1 to 100000 can be waited");
}

TEST_CASE("while it is paused tempo and players can be decided, and that it ends") {
    const std::string paused =
        "a decision is to count from bar 5 on: it is paused from bar 5 on, and only a wait there "
        "ends that";
    CHECK(refused(whole(2), {{5, Paused{}}, {5, Paused{}}}) == paused);
    CHECK(refused(whole(2), {{5, Paused{}}, {5, NewWay{chart::Way::of({1, 4}, 1)}}}) == paused);
    CHECK(refused(whole(2), {{5, Paused{}}, {5, NewTempo{Bpm(90)}}, {5, LaysOut{everybody}}})
              .empty());
    CHECK(refused(whole(2), {{5, Paused{}}, {5, Stopped{}}}).empty());
    CHECK(refused(whole(2), {{1, Paused{}}}) ==
          "a decision is to count from bar 1 on: bars 2 to 25 are still to come");
    CHECK(refused(whole(2), {{25, Paused{}}}).empty());
    CHECK_FALSE(refused(whole(2), {{26, Paused{}}}).empty());
}

TEST_CASE("another way has bars that the chart has, and not too many of them") {
    CHECK(refused(whole(2), {{5, NewWay{chart::Way::of({9, 13}, 1)}}}) ==
          "bars 9 to 13 are to be played: the chart has bars 1 to 12");
    CHECK(refused(whole(2), {{5, NewWay{}}}) ==
          "the road map has no bars: there is nothing to play");
    CHECK(refused(whole(2), {{5, NewWay{chart::Way::of({1, 12}, 1667)}}}) ==
          "the road map has 20004 bars: 20000 are the most");
    CHECK(refused(whole(2), {{5, Paused{}}, {5, Waited{4, chart::Way::of({0, 2}, 1)}}}) ==
          "bars 0 to 2 are to be played: the chart has bars 1 to 12");
    CHECK(refused(whole(2), {{25, NewWay{chart::Way::of({1, 4}, 1)}}}).empty());
    CHECK(refused(whole(2), {{1, NewWay{chart::Way::of({1, 4}, 1)}}}).empty());
}
