#include "support/catch.hpp"

#include <compline/assess/settings.hpp>
#include <compline/text/bad_input.hpp>

using namespace compline;
using assess::auto_tolerance;
using time::Bpm;

namespace {

double tolerance_ms(double tempo, bool swung = true) {
    const Bpm bpm(tempo);
    const auto swing = swung ? time::Swing::at(bpm) : time::Swing::straight();
    return auto_tolerance(bpm, swing).milliseconds();
}

}  // namespace

TEST_CASE("tolerance follows the tempo: 42 ms at 132, 25 at 240, never beyond 60") {
    CHECK(tolerance_ms(132) == Approx(42.3).margin(0.05));
    CHECK(tolerance_ms(240) == Approx(25).margin(0.001));
    CHECK(tolerance_ms(300) == Approx(25).margin(0.001));  // not 20
    CHECK(tolerance_ms(60, false) == Approx(60).margin(0.001));
    for (int tempo = 30; tempo <= 400; tempo += 5) {
        const auto short_note = time::Swing::at(Bpm(tempo)).short_note(Bpm(tempo));
        CHECK(tolerance_ms(tempo) <= short_note.milliseconds() / 3 + 1e-9);
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
