// An evening with what waits for the player: vamps until the cue, and what is out of time.

#include "support/catch.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/practice/evening.hpp>

#include <string>
#include <vector>

using namespace compline;
using practice::Command;
using practice::Evening;
using practice::Orders;
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

class Night {
  public:
    explicit Night(const roadmap::RoadMap& map)
        : evening_(map, {}, {}, practice::JudgedMeanwhile::nothing) {}
    Orders at(double seconds, const std::vector<Command>& commands = {}) {
        return evening_.advance(Seconds(seconds), {}, commands);
    }
    [[nodiscard]] const practice::State& state() const { return evening_.state(); }
    /// Numbers in the form of the bars that are played, as far as `count`.
    [[nodiscard]] std::string bars(int count) const {
        std::string text;
        const auto& map = state().map;
        for (int number = 1; number <= count; ++number) {
            if (map.bars() && number > *map.bars()) return text + " .";
            text += (number == 1 ? "" : " ") + std::to_string(map.bar(number).in_form());
        }
        return text;
    }

  private:
    Evening evening_;
};

}  // namespace

TEST_CASE("a vamp comes again and again until the cue, and then what follows it begins") {
    Night night(tune("head: bars=A; vamp until cue: bars=V; out: bars=B"));
    CHECK(night.bars(10) == "1 2 3 4 5 6 5 6 5 6");
    night.at(1);
    CHECK(!night.state().until_cue);
    // In the head there is nothing to go on with.
    CHECK(night.at(3, {Command::go_on}).decided.empty());
    night.at(8.5);
    CHECK(night.state().until_cue);
    const auto orders = night.at(13, {Command::go_on});
    REQUIRE(orders.decided.size() == 1);
    CHECK(orders.follow_from == 9);
    CHECK(night.bars(12) == "1 2 3 4 5 6 5 6 7 8 .");
    night.at(17);
    CHECK(!night.state().until_cue);
    CHECK(night.at(17.5, {Command::go_on}).decided.empty());
}

TEST_CASE("a cue a moment before the vamp ends lets it come once more") {
    Night night(tune("vamp until cue: bars=V; out: bars=B"));
    night.at(1);
    night.at(3.9, {Command::go_on});
    CHECK(night.bars(8) == "5 6 5 6 7 8 .");
}

TEST_CASE("a vamp with which the tune ends is played once more, with the ending") {
    Night night(tune("head: bars=A; vamp until cue: bars=V; rit 1; held ending"));
    night.at(9);
    night.at(9.5, {Command::go_on});
    CHECK(night.bars(10) == "1 2 3 4 5 6 5 6 .");
    const auto& way = night.state().map.way();
    CHECK(way.held_ending);
    CHECK(way.stretches.back().rit == 1);
    CHECK(way.stretches[1].rit == 0);
}

TEST_CASE("two vamps wait for two cues") {
    Night night(tune("solo until cue: bars=A; vamp until cue: bars=V; out: bars=B"));
    night.at(1);
    night.at(1.5, {Command::go_on});
    CHECK(night.bars(9) == "1 2 3 4 5 6 5 6 5");
    night.at(9, {Command::go_on});
    CHECK(night.bars(9) == "1 2 3 4 5 6 7 8 .");
}

TEST_CASE("from the top the vamp waits again") {
    Night night(tune("vamp until cue: bars=V; out: bars=B"));
    night.at(1);
    night.at(1.5, {Command::go_on});
    night.at(5, {Command::from_the_top});
    CHECK(night.bars(7) == "5 6 5 6 5 6 5");
}

TEST_CASE("a pause in a vamp goes on in the vamp") {
    Night night(tune("vamp until cue: bars=V; out: bars=B"));
    night.at(1);
    night.at(1.1, {Command::pause});
    CHECK(!night.state().until_cue);
    night.at(6, {Command::go_on});
    CHECK(night.bars(6) == "5 0 5 6 5 6");
    night.at(14);
    CHECK(night.state().until_cue);
}

TEST_CASE("what is rubato waits for the player, and the tune goes on behind it") {
    Night night(tune("head", "B: {tempo: rubato, bars: G | A}\n  C: D | E"));
    // A and V are six bars; B is 7 and 8.
    night.at(9);
    CHECK(!night.state().paused);
    night.at(10.5);
    CHECK(night.state().paused);
    CHECK(night.state().rubato.has_value());
    CHECK(night.bars(9) == "1 2 3 4 5 6 .");
    night.at(30, {Command::go_on});
    CHECK(!night.state().rubato.has_value());
    CHECK(night.bars(12) == "1 2 3 4 5 6 0 9 10 .");
}

TEST_CASE("a tune that ends out of time ends when the player goes on") {
    Night night(tune("head", "B: {tempo: rubato, bars: G | A}"));
    night.at(10.5);
    CHECK(night.state().rubato.has_value());
    CHECK(night.at(20, {Command::go_on}).stop);
    CHECK(night.state().over);
}
