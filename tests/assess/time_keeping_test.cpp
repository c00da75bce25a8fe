#include "support/catch.hpp"
#include "support/comper.hpp"

using namespace compline;
using tests::Comper;

TEST_CASE("time is judged on beats and off-beats apart, single notes left out") {
    Comper comper("Dm7 | %", 120);
    comper.swing(2);
    for (int bar = 1; bar <= 2; ++bar) {
        comper.strum(bar, 1, "x5x56x", 10)
            .strum(bar, 2.5, "x5x56x", -6)
            .strum(bar, 3, "x5x56x", 20);
        comper.strum(bar, 4, "5xxxxx", 90);
    }
    const auto time = comper.judged().time;
    CHECK(time.all.count == 6);
    CHECK(time.on_beats.count == 4);
    CHECK(*time.on_beats.mean_ms == Approx(15).margin(0.001));
    CHECK(*time.on_beats.sd_ms == Approx(5.7735).margin(0.001));
    CHECK(*time.off_beats.mean_ms == Approx(-6).margin(0.001));
    CHECK(!time.drift_ms_per_bar.has_value());
    CHECK(!time.swing_ratio.has_value());
}

TEST_CASE("the player's own swing ratio shows after twenty pairs") {
    Comper comper("Dm7 | % | % | %", 120);
    comper.swing(1.8).times(2);
    for (int bar = 1; bar <= 8; ++bar) {
        for (int beat = 1; beat <= 4; ++beat) {
            comper.strum(bar, beat, "x5x56x", 0, 0.3).strum(bar, beat + 0.5, "x5x56x", 0, 0.2);
        }
    }
    CHECK(*comper.judged().time.swing_ratio == Approx(1.8).margin(0.01));
}

TEST_CASE("drift is measured where the band is silent") {
    Comper comper("Dm7 | % | % | %", 120);
    for (int bar = 1; bar <= 4; ++bar) {
        for (int beat = 1; beat <= 4; ++beat) {
            comper.strum(bar, beat, "x5x56x", bar < 3 ? 0 : 4.0 * (bar - 3 + (beat - 1) / 4.0),
                         0.5);
        }
    }
    const auto groove = comper.groove();
    assess::Performance performance;
    performance.passage = comper.form().whole();
    performance.silent_bars = {2, 3};
    const auto assessment = assess::assess(comper.form(), performance, groove, comper.notes(),
                                           guitar::Fretboard::standard(), {});
    CHECK(*assessment.time.drift_ms_per_bar == Approx(4).margin(0.01));
}

TEST_CASE(
    "the weakest four bars are those of the form, over all choruses, the earliest of equals") {
    Comper comper("Dm7 | F#m7 | Dm7 | F#m7 | Dm7 | F#m7 | Dm7 | F#m7", 120);
    comper.times(2);
    for (int bar = 1; bar <= 16; ++bar) {
        const bool late = bar == 6 || bar == 7 || bar == 14;
        comper.strum(bar, 1, bar % 2 == 1 ? "x5x56x" : "2x22xx", late ? 100 : 0);
    }
    const auto weakest = comper.judged().weakest;
    REQUIRE(weakest.has_value());
    CHECK(weakest->from_bar == 4);
    CHECK(weakest->to_bar == 7);
    CHECK(weakest->cost == Approx(1.5));
    CHECK(weakest->loop == chart::Passage{4, 7});
}

TEST_CASE(
    "one fault alone is no weak spot; a worst change on the first bar is looped from before") {
    Comper one("Dm7 | F#m7 | Dm7 | F#m7 | Dm7", 120);
    one.strum(1, 1, "x5x56x").strum(2, 1, "2x22xx", 100).strum(3, 1, "x5x56x");
    one.strum(4, 1, "2x22xx").strum(5, 1, "x5x56x");
    CHECK(!one.judged().weakest.has_value());
    Comper first("Dm7 | F#m7 | Dm7 | F#m7 | Dm7", 120);
    first.strum(1, 1, "x5x56x").strum(2, 1, "2x22xx", 120).strum(3, 1, "x5x56x");
    first.strum(4, 1, "2x22xx").strum(5, 1, "x5x56x", 100);
    const auto weakest = first.judged().weakest;
    REQUIRE(weakest.has_value());
    CHECK(weakest->from_bar == 2);
    CHECK(weakest->loop == chart::Passage{1, 5});
}
