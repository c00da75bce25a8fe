#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"

using namespace compline;
using tests::Comper;
using tests::said;

// What moves beside the chord: a finger hammered on, a thumb that walks, a push that swings.

TEST_CASE("a tone that is hammered at once into one of the chord is a grace note") {
    for (const double ms : {40.0, 80.0, 110.0}) {
        Comper comper("F7 | C7", 120, "F");
        comper.strum(1, 1, "1x12xx").strum(2, 1, "x3131x", 0, 3.8);
        comper.note(2, 1, 4, 2, ms, 3.6);  // the third, from a fret below
        INFO(ms);
        CHECK(said(comper.change(2)) == "on_time +0 at 0");
    }
    Comper late("F7 | C7", 120, "F");
    late.strum(1, 1, "1x12xx").strum(2, 1, "x3131x", 0, 3.8).note(2, 2, 4, 2, 0, 2.6);
    CHECK(late.change(2).wrong.size() == 1);
    // A whole grip struck again is a mistake mended.
    Comper mended("F7 | C7", 120, "F");
    mended.strum(1, 1, "1x12xx").strum(2, 1, "x3131x", 0, 0.2).strum(2, 1, "x3231x", 115);
    CHECK(mended.change(2).wrong.size() == 1);
}

TEST_CASE("a bass that walks under the chord is not charged to it") {
    Comper walking("Cmaj7 | Dm7", 120);
    walking.note(1, 1, 5, 3, 0, 0.95).strum(1, 2, "xx2453", 0, 0.5);
    walking.note(2, 1, 5, 5, 0, 0.95).note(2, 2, 6, 4, 0, 0.95);  // D, and G sharp on its way
    walking.strum(2, 2.5, "xx3565", 0, 0.5);
    CHECK(walking.change(2).wrong.empty());
    // Struck with the chord it is of the chord.
    Comper together("Cmaj7 | Dm7", 120);
    together.strum(1, 1, "x3x45x").strum(2, 1, "4x3565", 0, 2);
    CHECK(together.change(2).wrong.size() == 1);
}

TEST_CASE("a pushed grip over the old bass, which ends with its bar, is right") {
    Comper comper("Eb7 | Dm7", 130, "D");
    comper.swing(1).strum(1, 1, "xx5676", 0, 1).note(1, 3, 5, 6, 0, 1.98);
    comper.strum(1, 4.5, "xx3565", 0, 1.4).note(2, 1, 5, 5, 0, 1.9);
    CHECK(said(comper.change(2)) == "pushed +0 at -0.5");
}

TEST_CASE("a pattern's last off-beat may push the next chord, and need not") {
    const auto pattern = tests::with_rhythm("2& 4&");
    Comper pushes("Dm7 | G7 | Cmaj7", 120);
    pushes.strum(1, 2.5, "x5x56x", 0, 0.5).strum(1, 4.5, "3x34xx", 0, 0.5);
    pushes.strum(2, 2.5, "3x34xx", 0, 0.5).strum(2, 4.5, "x3x45x", 0, 0.5);
    CHECK(pushes.verdicts(pattern) == "on_time pushed pushed");
    assess::Settings strict = pattern;
    strict.pushes = false;
    CHECK(pushes.verdicts(strict) == "on_time pushed pushed");
    Comper waits("Dm7 | G7", 120);
    waits.strum(1, 2.5, "x5x56x", 0, 0.5).strum(1, 4.5, "x5x56x", 0, 0.5);
    waits.strum(2, 2.5, "3x34xx", 0, 0.5).strum(2, 4.5, "3x34xx", 0, 0.5);
    CHECK(waits.verdicts(pattern) == "on_time on_time");
}

TEST_CASE("a push swings as this player's off-beats do, also where the band plays straight") {
    Comper comper("Dm7 | Ab7 | F#m7 | C7 | Bbm7 | E7 | Ebm7 | B7", 120);
    const char* grips[] = {"x5x56x", "4x45xx", "2x22xx", "8x89xx",
                           "6x66xx", "x7x79x", "x6x67x", "7x78xx"};
    const double swung = 500.0 * (2.5 / 3.5 - 0.5);  // his off-beats, from the straight ones
    for (int bar = 1; bar <= 8; ++bar) {
        if (bar == 1) comper.strum(1, 1, grips[0], 0, 0.5);
        comper.strum(bar, 2.5, grips[bar - 1], swung, 0.5).strum(bar, 3, grips[bar - 1], 0, 0.5);
        if (bar < 8) comper.strum(bar, 4.5, grips[bar], swung, 0.5);
    }
    CHECK(comper.verdicts() == "on_time pushed pushed pushed pushed pushed pushed pushed");
}

TEST_CASE("a stretch astray is named once for each time through") {
    Comper comper("Dm7 | Ab7 | F#m7 | C7", 120);
    comper.times(4);
    const char* grips[] = {"x5x56x", "4x45xx", "2x22xx", "8x89xx"};
    for (int bar = 1; bar <= 16; ++bar) {
        const bool lost = bar > 4 && bar <= 12;
        comper.strum(bar, 1, grips[(bar - 1 + (lost ? 1 : 0)) % 4]);
    }
    const auto judged = comper.judged();
    CHECK(judged.totals.count(assess::Verdict::astray) == 8);
    REQUIRE(judged.astray.size() == 2);
    CHECK(judged.astray[0].time_through == 2);
    CHECK(judged.astray[1].time_through == 3);
    CHECK(judged.astray[1].from_bar == 1);
    CHECK(judged.astray[1].to_bar == 4);
    CHECK(judged.astray[1].changes == 4);
}
