// When the hand is told to rest.

#include "practice/climber.hpp"
#include "support/catch.hpp"

#include <compline/practice/evening.hpp>
#include <compline/practice/rest.hpp>

#include <algorithm>
#include <optional>
#include <vector>

using namespace compline;
using practice::Command;
using practice::Remark;
using time::Seconds;

TEST_CASE("after ten minutes of one loop the hand is told to rest, and again after ten more") {
    auto asked = roadmap::Asked::of({5, 8}, std::nullopt);
    practice::Evening evening({tests::two_sections(), asked}, {}, {},
                              practice::JudgedMeanwhile::nothing);
    const auto rests = [&](double until) {
        for (auto now = evening.state().now; now < Seconds(until); now += Seconds(1)) {
            (void)evening.advance(now, {}, {});
        }
        return std::count(evening.state().remarks.begin(), evening.state().remarks.end(),
                          Remark::rest_from_loop);
    };
    CHECK(rests(590) == 0);
    CHECK(rests(603) == 1);
    CHECK(rests(1190) == 1);
    CHECK(rests(1210) == 2);
}

TEST_CASE("a pause does not tire the hand, nor does the whole tune count as one loop") {
    auto asked = roadmap::Asked::of({1, 10}, std::nullopt);
    practice::Evening evening({tests::two_sections(), asked}, {}, {},
                              practice::JudgedMeanwhile::nothing);
    Seconds now(0);
    const auto go_on_for = [&](double seconds) {
        const auto until = now + Seconds(seconds);
        for (; now < until; now += Seconds(1)) (void)evening.advance(now, {}, {});
    };
    const auto ask = [&](Command command) {
        const std::vector<Command> commands{command};
        (void)evening.advance(now, {}, commands);
    };
    go_on_for(700);
    CHECK(evening.state().remarks.empty());
    ask(Command::loop_here);
    go_on_for(400);
    ask(Command::pause);
    go_on_for(900);
    ask(Command::go_on);
    go_on_for(190);
    CHECK(evening.state().remarks.empty());
    go_on_for(30);
    CHECK(evening.state().remarks == std::vector<Remark>{Remark::rest_from_loop});
    go_on_for(500);  // 2720 s in all
    CHECK(evening.state().remarks ==
          std::vector<Remark>{Remark::rest_from_loop, Remark::rest_from_evening});
}

TEST_CASE("another loop is another hold of the hand: its ten minutes count from its beginning") {
    practice::RestClock clock;
    const auto a_minute_of = [&](std::optional<chart::Passage> loop) {
        return clock.pass(Seconds(60), true, loop).from_loop;
    };
    for (int minute = 1; minute <= 9; ++minute) CHECK_FALSE(a_minute_of(chart::Passage{5, 8}));
    for (int minute = 1; minute <= 9; ++minute) CHECK_FALSE(a_minute_of(chart::Passage{9, 12}));
    CHECK(a_minute_of(chart::Passage{9, 12}));
    for (int minute = 1; minute <= 9; ++minute) CHECK_FALSE(a_minute_of(chart::Passage{5, 8}));
    CHECK(a_minute_of(chart::Passage{5, 8}));
}

TEST_CASE("who wants no reminders is not reminded") {
    auto asked = roadmap::Asked::of({5, 8}, std::nullopt);
    practice::Evening evening({tests::two_sections(), asked}, {}, {},
                              practice::JudgedMeanwhile::nothing, practice::Reminders::off);
    for (Seconds now(0); now < Seconds(3000); now += Seconds(2)) (void)evening.advance(now, {}, {});
    CHECK(evening.state().remarks.empty());
}
