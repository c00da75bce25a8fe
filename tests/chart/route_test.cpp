#include "support/catch.hpp"

#include <compline/chart/route.hpp>

#include <random>
#include <vector>

using namespace compline;
using chart::Passage;
using chart::Route;
using chart::Stretch;
using time::Meter;
using time::Ticks;

namespace {

constexpr Ticks bar_of_four(3840);

Route route_of(const std::vector<Passage>& passages, bool goes_on = false) {
    Route route;
    for (const auto passage : passages) route.stretches.push_back({passage, "", {}, false});
    route.goes_on = goes_on;
    return route;
}

/// "time_through bar bar_played in_bar", then "before" or "over".
std::string place(const Route& route, Ticks position, Meter meter = Meter(4)) {
    const auto at = route.place(position, meter);
    return std::to_string(at.time_through) + " " + std::to_string(at.bar) + " " +
           std::to_string(at.bar_played) + " " + std::to_string(at.in_bar.count()) +
           (at.before ? " before" : "") + (at.over ? " over" : "");
}

}  // namespace

TEST_CASE("a passage played four times is a route of four stretches that ends") {
    const auto route = Route::of({9, 12}, 4);
    CHECK(route.times_through() == 4);
    CHECK(route.is_uniform());
    CHECK(!route.goes_on);
    CHECK(!route.held_ending);
    CHECK(route.stretch(1) == Stretch{{9, 12}, "", {}, false});
    CHECK(route.stretch(4) == route.stretch(1));
    CHECK(route.bars_before(1) == 0);
    CHECK(route.bars_before(4) == 12);
    CHECK(route.start(3, Meter(3)) == Ticks(8 * 2880));
}

TEST_CASE("a tune that is played to its end ends on a held chord, a passage or a loop does not") {
    chart::Form form;
    form.bars.resize(12);
    for (const int times : {1, 3}) {
        const auto tune = Route::through(form, {1, 12}, times);
        CHECK(tune.held_ending);
        CHECK(tune.stretches == Route::of({1, 12}, times).stretches);
        CHECK_FALSE(Route::through(form, {9, 12}, times).held_ending);
        CHECK_FALSE(Route::through(form, {1, 11}, times).held_ending);
    }
    CHECK_FALSE(Route::through(form, {1, 12}, std::nullopt).held_ending);
    // Who stops after the first of three does not hear the end.
    CHECK_FALSE(Route::through(form, {1, 12}, 3).first(1).held_ending);
}

TEST_CASE("slow brushes swing 2:1 in the bars that they are played in, whoever asked for them") {
    using chart::Drums;
    chart::Form form;
    form.bars.resize(4);
    form.bars[1].manner.drums = Drums::ride;
    auto route = Route::of({1, 4}, 2);
    route.stretches[1].manner.drums = Drums::hats;
    const time::Bpm slow(60);
    const auto by_tempo = time::Swing::at(slow);
    auto groove = chart::groove_of(form, route, {}, slow);
    CHECK(groove.swing == time::Swing(2));
    CHECK(groove.swing_at(Ticks(0)) == time::Swing(2));
    CHECK(groove.swing_at(bar_of_four) == by_tempo);
    CHECK(groove.swing_at(bar_of_four * 4) == by_tempo);
    groove = chart::groove_of(form, route, {{}, Drums::brushes, {}}, slow);
    for (int bar = 0; bar < 8; ++bar) CHECK(groove.swing_at(bar_of_four * bar) == time::Swing(2));
}

TEST_CASE("a passage played until stopped never ends") {
    const auto route = Route::of({9, 12}, std::nullopt);
    CHECK(!route.times_through().has_value());
    CHECK(route.goes_on);
    CHECK(route.bars_before(1000001) == 4000000);
    CHECK(route.stretch(1000001).passage == Passage{9, 12});
    CHECK(place(route, bar_of_four * 4000003 + Ticks(7)) == "1000001 12 4000003 7");
}

TEST_CASE("a change is a seam where the tune does not go on so, from the second time through on") {
    chart::Form form;
    form.bars.resize(12);
    const auto route = route_of({{1, 12}, {1, 8}, {9, 12}, {9, 12}, {1, 12}});
    CHECK_FALSE(route.is_seam(2, form));
    CHECK_FALSE(route.is_seam(3, form));
    CHECK(route.is_seam(4, form));
    CHECK_FALSE(route.is_seam(5, form));
}

TEST_CASE("a place is named by time through, bar of the form and bar played") {
    const auto route = Route::of({9, 12}, 2);
    CHECK(place(route, Ticks(0)) == "1 9 0 0");
    CHECK(place(route, bar_of_four - Ticks(1)) == "1 9 0 3839");
    CHECK(place(route, bar_of_four * 3) == "1 12 3 0");
    CHECK(place(route, bar_of_four * 4) == "2 9 4 0");
    CHECK(place(route, bar_of_four * 7 + Ticks(960)) == "2 12 7 960");
}

TEST_CASE("before the beginning is the first bar, past the end the last") {
    const auto route = route_of({{5, 8}, {1, 8}, {2, 3}});
    CHECK(place(route, Ticks(-1)) == "1 5 0 0 before");
    CHECK(place(route, Ticks(-100000)) == "1 5 0 0 before");
    CHECK(place(route, bar_of_four * 14 - Ticks(1)) == "3 3 13 3839");
    CHECK(place(route, bar_of_four * 14) == "3 3 13 0 over");
    CHECK(place(route, bar_of_four * 9999) == "3 3 13 0 over");
    CHECK(place(Route::of({9, 12}, std::nullopt), Ticks(-1)) == "1 9 0 0 before");
}

TEST_CASE("a route of unlike stretches counts the bars of each") {
    const auto route = route_of({{5, 8}, {1, 8}, {2, 3}});
    CHECK(!route.is_uniform());
    CHECK(route.times_through() == 3);
    CHECK(route.bars_before(2) == 4);
    CHECK(route.bars_before(3) == 12);
    CHECK(route.bars_before(4) == 14);
    CHECK(place(route, bar_of_four * 4) == "2 1 4 0");
    CHECK(place(route, bar_of_four * 12 + Ticks(5)) == "3 2 12 5");
    CHECK(place(route, Ticks(2880 * 12), Meter(3)) == "3 2 12 0");
}

TEST_CASE("a route that goes on comes back to its last stretch") {
    const auto route = route_of({{5, 8}, {1, 8}, {2, 3}}, true);
    CHECK(!route.times_through().has_value());
    CHECK(route.stretch(51).passage == Passage{2, 3});
    CHECK(route.bars_before(4) == 14);
    CHECK(route.bars_before(11) == 12 + 8 * 2);
    CHECK(place(route, bar_of_four * 3) == "1 8 3 0");
    CHECK(place(route, bar_of_four * 12) == "3 2 12 0");
    CHECK(place(route, bar_of_four * 14) == "4 2 14 0");
    CHECK(place(route, bar_of_four * 27 + Ticks(1)) == "10 3 27 1");
}

TEST_CASE("what lies in a time through is found in that time through, whatever the route") {
    std::mt19937 random(5);
    const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    for (int i = 0; i < 200; ++i) {
        std::vector<Passage> passages;
        for (int stretch = 0; stretch < 1 + i % 6; ++stretch) {
            const int from = 1 + below(20);
            passages.push_back({from, from + below(12)});
        }
        const auto route = route_of(passages, i % 2 == 0);
        const Meter meter(3 + i % 4);
        const int times = static_cast<int>(passages.size()) + (route.goes_on ? 5 : 0);
        for (int time = 1; time <= times; ++time) {
            const auto passage = route.stretch(time).passage;
            const int bar = below(passage.bars());
            const Ticks in_bar(below(static_cast<int>(meter.bar().count())));
            const auto at =
                route.place(route.start(time, meter) + meter.bar() * bar + in_bar, meter);
            REQUIRE(at.time_through == time);
            REQUIRE(at.bar == passage.from + bar);
            REQUIRE(at.bar_played == route.bars_before(time) + bar);
            REQUIRE(at.in_bar == in_bar);
            REQUIRE(!at.before);
            REQUIRE(!at.over);
        }
        REQUIRE(route.place(route.start(times + 1, meter), meter).over == !route.goes_on);
    }
}
