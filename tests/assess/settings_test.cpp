#include "support/catch.hpp"

#include <compline/assess/settings.hpp>
#include <compline/text/bad_input.hpp>

using namespace compline;
using assess::auto_tolerance;
using time::Bpm;

namespace {

time::Groove groove(double tempo, bool swung = true) {
    const Bpm bpm(tempo);
    return {time::Timeline(bpm), swung ? time::Swing::at(bpm) : time::Swing::straight()};
}

}  // namespace

TEST_CASE("tolerance follows the tempo: 42 ms at 132, 25 at 240, never beyond 60") {
    CHECK(auto_tolerance(groove(132)).milliseconds() == Approx(42.3).margin(0.05));
    CHECK(auto_tolerance(groove(240)).milliseconds() == Approx(25).margin(0.001));
    CHECK(auto_tolerance(groove(300)).milliseconds() == Approx(25).margin(0.001));  // not 20
    CHECK(auto_tolerance(groove(60, false)).milliseconds() == Approx(60).margin(0.001));
    for (int tempo = 30; tempo <= 400; tempo += 5) {
        const auto g = groove(tempo);
        CHECK(auto_tolerance(g).count() <= g.swing.short_note(Bpm(tempo)).count() / 3 + 1e-12);
    }
}

TEST_CASE("a rhythm is free, four, or beats of the bar") {
    const time::Meter four(4);
    CHECK(assess::read_rhythm("free", four).kind == assess::Rhythm::Kind::free);
    CHECK(assess::read_rhythm("four", four).due_in_bar(four).size() == 4);
    CHECK(assess::read_rhythm("four", four).due_in_bar(time::Meter(3)).size() == 3);
    const auto charleston = assess::read_rhythm("1 2&", four);
    CHECK(charleston.positions == std::vector{time::Ticks(0), time::Ticks(1440)});
    CHECK(assess::read_rhythm(" 2&  1 ", four).name() == "1 2&");
    for (const char* wrong : {"", "5", "1&&", "one", "0", "1,2", "2&1"}) {
        CHECK_THROWS_AS(assess::read_rhythm(wrong, four), text::BadInput);
    }
    CHECK_THROWS_AS(assess::read_rhythm("4", time::Meter(3)), text::BadInput);
}
