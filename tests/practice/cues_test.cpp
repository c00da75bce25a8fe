// An evening with what waits for the player: vamps until the cue, and what is out of time.

#include "practice/night.hpp"
#include "support/catch.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/practice/take.hpp>

#include <string>
#include <vector>

using namespace compline;
using practice::Command;
using tests::Night;
using time::Seconds;

namespace {

/// A bar every two seconds: A of four bars, a vamp of two, B of two.
roadmap::RoadMap tune(const std::string& road_map, const std::string& b = "B: G | A") {
    const auto form = chart::unroll(chart::read_chart(
        "title: T\nkey: C\ntempo: 120\nsections:\n  A: C | D | E | F\n  V: G7 | %\n  " + b + "\n",
        "t.yaml"));
    roadmap::Asked asked;
    asked.way = chart::read_road_map(form, road_map);
    asked.count_in_bars = 1;
    return {form, asked};
}

/// The bars of the form that are played, as far as so many or to the end: "1 2 3 ."
std::string bars(const Night& night, int count) {
    auto text = night.bars(1, count);
    const auto end = text.find(" -");
    return end == std::string::npos ? text : text.substr(0, end) + " .";
}

}  // namespace

TEST_CASE("a vamp comes again and again until the cue, and then what follows it begins") {
    Night night(tune("head: bars=A; vamp until cue: bars=V; out: bars=B"));
    CHECK(bars(night, 10) == "1 2 3 4 5 6 5 6 5 6");
    night.at(Seconds(1));
    CHECK(!night.state().until_cue);
    // In the head there is nothing to go on with.
    CHECK(night.at(Seconds(3), {Command::go_on}).decided.empty());
    night.at(Seconds(8.5));
    CHECK(night.state().until_cue);
    const auto orders = night.at(Seconds(13), {Command::go_on});
    REQUIRE(orders.decided.size() == 1);
    CHECK(orders.follow_from == 9);
    CHECK(bars(night, 12) == "1 2 3 4 5 6 5 6 7 8 .");
    night.at(Seconds(17));
    CHECK(!night.state().until_cue);
    CHECK(night.at(Seconds(17.5), {Command::go_on}).decided.empty());
}

TEST_CASE("a cue a moment before the vamp ends lets it come once more") {
    Night night(tune("vamp until cue: bars=V; out: bars=B"));
    night.at(Seconds(1));
    night.at(Seconds(3.9), {Command::go_on});
    CHECK(bars(night, 8) == "5 6 5 6 7 8 .");
}

TEST_CASE("a vamp with which the tune ends is played once more, with the ending") {
    Night night(tune("head: bars=A; vamp until cue: bars=V; rit 1; held ending"));
    night.at(Seconds(9));
    night.at(Seconds(9.5), {Command::go_on});
    CHECK(bars(night, 10) == "1 2 3 4 5 6 5 6 .");
    const auto& way = night.map().way();
    CHECK(way.held_ending);
    CHECK(way.stretches.back().rit == 1);
    CHECK(way.stretches[1].rit == 0);
}

TEST_CASE("a vamp whose end slows down does so once, after the cue") {
    Night night(tune("vamp until cue: bars=V; rit 1; out: bars=B; a: bars=A"));
    night.at(Seconds(1), {Command::go_on});
    CHECK(bars(night, 10) == "5 6 5 6 7 8 1 2 3 4");
    CHECK(night.map().way().stretches[0].rit == 0);
    CHECK(night.map().way().stretches[1].rit == 1);
}

TEST_CASE("two vamps wait for two cues") {
    Night night(tune("solo until cue: bars=A; vamp until cue: bars=V; out: bars=B"));
    night.at(Seconds(1));
    night.at(Seconds(1.5), {Command::go_on});
    CHECK(bars(night, 9) == "1 2 3 4 5 6 5 6 5");
    night.at(Seconds(9), {Command::go_on});
    CHECK(bars(night, 9) == "1 2 3 4 5 6 7 8 .");
}

TEST_CASE("from the top the vamp waits again") {
    Night night(tune("vamp until cue: bars=V; out: bars=B"));
    night.at(Seconds(1));
    night.at(Seconds(1.5), {Command::go_on});
    night.at(Seconds(5), {Command::from_the_top});
    CHECK(bars(night, 7) == "5 6 5 6 5 6 5");
}

TEST_CASE("a pause in a vamp goes on in the vamp") {
    Night night(tune("vamp until cue: bars=V; out: bars=B"));
    night.at(Seconds(1));
    night.at(Seconds(1.1), {Command::pause});
    CHECK(!night.state().until_cue);
    night.at(Seconds(6), {Command::go_on});
    CHECK(bars(night, 6) == "5 0 5 6 5 6");
    night.at(Seconds(14));
    CHECK(night.state().until_cue);
}

TEST_CASE("what is rubato waits for the player, and the tune goes on behind it") {
    Night night(tune("head", "B: {tempo: rubato, bars: G | A}\n  C: D | E"));
    // A and V are six bars; B is 7 and 8.
    night.at(Seconds(9));
    CHECK(!night.state().paused);
    night.at(Seconds(10.5));
    CHECK(night.state().paused);
    CHECK(night.state().rubato.has_value());
    CHECK(bars(night, 9) == "1 2 3 4 5 6 .");
    night.at(Seconds(30), {Command::go_on});
    CHECK(!night.state().rubato.has_value());
    CHECK(bars(night, 12) == "1 2 3 4 5 6 0 9 10 .");
}

TEST_CASE("a tune that ends out of time ends when the player goes on") {
    Night night(tune("head", "B: {tempo: rubato, bars: G | A}"));
    night.at(Seconds(10.5));
    CHECK(night.state().rubato.has_value());
    CHECK(night.at(Seconds(20), {Command::go_on}).stop);
    CHECK(night.state().over);
}

TEST_CASE("the take of an evening with cues plays again bar by bar as it was played") {
    const auto map =
        tune("head: bars=A; vamp until cue: bars=V; out until cue: bars=B; end: bars=A");
    Night night(map);
    for (const double at : {1.0, 9.0, 14.0, 17.5, 24.0}) {
        night.at(Seconds(at), {Command::go_on});
    }
    const auto take = night.evening().take();
    REQUIRE(take.info);
    const auto again = practice::map_of(*take.info, map.form());
    REQUIRE(again.bars() == night.map().bars());
    for (std::int64_t bar = 1; bar <= *again.bars(); ++bar) {
        CHECK(again.bar(bar).in_form() == night.map().bar(bar).in_form());
        CHECK(again.bar(bar).start == night.map().bar(bar).start);
    }
}
