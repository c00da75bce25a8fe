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

Route planned(const std::vector<Passage>& passages, bool goes_on = false) {
    Route route;
    for (const auto passage : passages) route.stretches.push_back({passage, "", {}, false});
    route.goes_on = goes_on;
    return route;
}

/// "time bar bar_played in_bar", then "before" or "over".
std::string place(const Route& route, Ticks position, Meter meter = Meter(4)) {
    const auto at = route.place(position, meter);
    return std::to_string(at.time) + " " + std::to_string(at.bar) + " " +
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
    CHECK(route.stretch(0) == Stretch{{9, 12}, "", {}, false});
    CHECK(route.stretch(3) == route.stretch(0));
    CHECK(route.bars_before(0) == 0);
    CHECK(route.bars_before(3) == 12);
    CHECK(route.start(2, Meter(3)) == Ticks(8 * 2880));
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
    CHECK(route.bars_before(1000000) == 4000000);
    CHECK(route.stretch(1000000).passage == Passage{9, 12});
    CHECK(place(route, bar_of_four * 4000003 + Ticks(7)) == "1000000 12 4000003 7");
}

TEST_CASE("a place is named by time through, bar of the form and bar played") {
    const auto route = Route::of({9, 12}, 2);
    CHECK(place(route, Ticks(0)) == "0 9 0 0");
    CHECK(place(route, bar_of_four - Ticks(1)) == "0 9 0 3839");
    CHECK(place(route, bar_of_four * 3) == "0 12 3 0");
    CHECK(place(route, bar_of_four * 4) == "1 9 4 0");
    CHECK(place(route, bar_of_four * 7 + Ticks(960)) == "1 12 7 960");
}

TEST_CASE("before the beginning is the first bar, past the end the last") {
    const auto route = planned({{5, 8}, {1, 8}, {2, 3}});
    CHECK(place(route, Ticks(-1)) == "0 5 0 0 before");
    CHECK(place(route, Ticks(-100000)) == "0 5 0 0 before");
    CHECK(place(route, bar_of_four * 14 - Ticks(1)) == "2 3 13 3839");
    CHECK(place(route, bar_of_four * 14) == "2 3 13 0 over");
    CHECK(place(route, bar_of_four * 9999) == "2 3 13 0 over");
    CHECK(place(Route::of({9, 12}, std::nullopt), Ticks(-1)) == "0 9 0 0 before");
}

TEST_CASE("a route of unlike stretches counts the bars of each") {
    const auto route = planned({{5, 8}, {1, 8}, {2, 3}});
    CHECK(!route.is_uniform());
    CHECK(route.times_through() == 3);
    CHECK(route.bars_before(1) == 4);
    CHECK(route.bars_before(2) == 12);
    CHECK(route.bars_before(3) == 14);
    CHECK(place(route, bar_of_four * 4) == "1 1 4 0");
    CHECK(place(route, bar_of_four * 12 + Ticks(5)) == "2 2 12 5");
    CHECK(place(route, Ticks(2880 * 12), Meter(3)) == "2 2 12 0");
}

TEST_CASE("a route that goes on comes back to its last stretch") {
    const auto route = planned({{5, 8}, {1, 8}, {2, 3}}, true);
    CHECK(!route.times_through().has_value());
    CHECK(route.stretch(50).passage == Passage{2, 3});
    CHECK(route.bars_before(3) == 14);
    CHECK(route.bars_before(10) == 12 + 8 * 2);
    CHECK(place(route, bar_of_four * 3) == "0 8 3 0");
    CHECK(place(route, bar_of_four * 12) == "2 2 12 0");
    CHECK(place(route, bar_of_four * 14) == "3 2 14 0");
    CHECK(place(route, bar_of_four * 27 + Ticks(1)) == "9 3 27 1");
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
        const auto route = planned(passages, i % 2 == 0);
        const Meter meter(3 + i % 4);
        const int times = static_cast<int>(passages.size()) + (route.goes_on ? 5 : 0);
        for (int time = 0; time < times; ++time) {
            const auto passage = route.stretch(time).passage;
            const int bar = below(passage.bars());
            const Ticks in_bar(below(static_cast<int>(meter.bar().count())));
            const auto at =
                route.place(route.start(time, meter) + meter.bar() * bar + in_bar, meter);
            REQUIRE(at.time == time);
            REQUIRE(at.bar == passage.from + bar);
            REQUIRE(at.bar_played == route.bars_before(time) + bar);
            REQUIRE(at.in_bar == in_bar);
            REQUIRE(!at.before);
            REQUIRE(!at.over);
        }
        REQUIRE(route.place(route.start(times, meter), meter).over == !route.goes_on);
    }
}
