#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/practice/progress.hpp>

#include <optional>

using namespace compline;
using practice::is_finished;
using practice::times_begun;
using practice::times_over;
using time::Seconds;

namespace {

/// Two bars of 4/4 at 120 bpm: four seconds a time through.
roadmap::Asked asked(std::optional<int> times) {
    auto asked = roadmap::Asked::of({1, 2}, times);
    asked.tempo = time::Bpm(120);
    return asked;
}
roadmap::RoadMap road(const roadmap::Asked& asked) {
    return {tests::make_form(time::Meter(4), time::Bpm(132), {"Dm7", "G7"}), asked};
}
roadmap::RoadMap two_bars(std::optional<int> times) { return road(asked(times)); }

}  // namespace

TEST_CASE("times through begin on their first beat and are over when the last chord was heard") {
    const auto some = two_bars(2);
    const auto endless = two_bars(std::nullopt);
    CHECK(times_begun(some, Seconds(-0.1)) == 0);
    CHECK(times_begun(some, Seconds(0)) == 1);
    CHECK(times_begun(some, Seconds(4.1)) == 2);
    CHECK(times_begun(some, Seconds(100)) == 2);
    CHECK(times_begun(endless, Seconds(100)) == 26);
    CHECK(times_over(some, Seconds(4.4)) == 0);
    CHECK(times_over(some, Seconds(4.6)) == 1);
    CHECK(times_over(some, Seconds(100)) == 2);
    CHECK_FALSE(is_finished(some, Seconds(8.4)));
    CHECK(is_finished(some, Seconds(8.6)));
    CHECK_FALSE(is_finished(endless, Seconds(1e6)));
    auto ends = asked(2);
    ends.way.held_ending = true;
    const auto rings = road(ends);  // two bars of two seconds more
    CHECK_FALSE(is_finished(rings, Seconds(12.4)));
    CHECK(is_finished(rings, Seconds(12.6)));
    ends.tempo = time::Bpm(400);
    const auto fast = road(ends);  // two bars would cut off the crash
    CHECK_FALSE(is_finished(fast, Seconds(2.4 + 2.9)));
    CHECK(is_finished(fast, Seconds(2.4 + 3.1)));
}

TEST_CASE("times through begin and end by the tempo that each of them has") {
    const auto map = two_bars(3).with({3, roadmap::NewTempo{time::Bpm(60)}});
    const auto& session = map;  // four seconds, then eight each
    CHECK(times_begun(session, Seconds(3.9)) == 1);
    CHECK(times_begun(session, Seconds(4.1)) == 2);
    CHECK(times_begun(session, Seconds(11.9)) == 2);
    CHECK(times_begun(session, Seconds(12.1)) == 3);
    CHECK_FALSE(is_finished(session, Seconds(20.4)));
    CHECK(is_finished(session, Seconds(20.6)));
}
