#include "support/catch.hpp"

#include <compline/time/timeline.hpp>

using namespace compline;
using time::Bpm;
using time::Swing;
using time::Ticks;

namespace {

constexpr Ticks bar{4 * 960};

time::Groove swung_then_straight() {
    time::Groove groove{time::Timeline(Bpm(120)), Swing(2), {}};
    groove.changes.add(Ticks(0), Swing(2));
    groove.changes.add(bar * 2, Swing::straight());
    return groove;
}

}  // namespace

TEST_CASE("without changes one swing holds everywhere, in the count-in too") {
    const time::Groove groove{time::Timeline(Bpm(120)), Swing(2), {}};
    for (const int n : {-8, -1, 0, 100}) CHECK(groove.swing_at(bar * n) == Swing(2));
}

TEST_CASE("a change of feel moves off-beats from its bar line on, and no beat") {
    const auto groove = swung_then_straight();
    const time::Groove plain{time::Timeline(Bpm(120)), Swing(2), {}};
    for (int beat = -4; beat < 16; ++beat) {
        const Ticks at = time::quarter_note * beat;
        CHECK(groove.time_of(at) == plain.time_of(at));
        const double share = beat < 8 ? 2.0 / 3 : 0.5;
        CHECK(groove.time_of(at + Ticks(480)).count() == Approx((beat + share) * 0.5));
    }
}

TEST_CASE("what comes again and again changes in the same places each time") {
    auto groove = swung_then_straight();
    groove.changes.repeat(bar, bar * 3);  // bars 1, 2, 3; then 1, 2, 3 ...
    for (int n = 0; n < 60; ++n) {
        const int in_turn = n < 1 ? n : 1 + (n - 1) % 3;
        CHECK((groove.swing_at(bar * n + Ticks(480)) == Swing(2)) == (in_turn < 2));
    }
}

TEST_CASE("written and played positions are each other's inverse across changes") {
    const auto groove = swung_then_straight();
    for (int n = -2000; n < 16000; n += 37) {
        const Ticks at(n);
        CHECK(groove.written_at(groove.time_of(at)).count() ==
              Approx(time::Beats(at).count()).margin(1e-9));
    }
}
