#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"

using namespace compline;
using tests::Comper;
using tests::readings;
using tests::said;

// Where a strum could be meant for more than one thing: all readings of a take are weighed
// together.

TEST_CASE(
    "no chord is left empty while a strum in its room fits it and its neighbour has its own") {
    // C6 and Am7 are the same notes, and so are Dm7 and F6.
    for (const double late : {-30.0, 0.0, 90.0, 160.0}) {
        for (const bool twice : {false, true}) {
            Comper comper("C6 | Am7 | F#m7", 120);
            comper.strum(1, 1, "8x798x");
            if (twice) comper.strum(1, 3, "8x798x");
            comper.strum(2, 1, "8x798x", late).strum(3, 1, "2x22xx");
            INFO(late << (twice ? ", struck twice before" : ""));
            CHECK(readings(comper.judged()) ==
                  (twice ? "landing again landing landing" : "landing landing landing"));
            CHECK(comper.change(2).lateness->milliseconds() == Approx(late).margin(0.001));
        }
    }
    Comper pushed("Dm7 | F6 | F#m7", 120);
    pushed.strum(1, 1, "x57565").strum(1, 4.5, "x57565").strum(3, 1, "2x22xx");
    CHECK(pushed.verdicts() == "on_time pushed on_time");
    Comper first("Dm7 | F6 | F#m7", 120);  // the one before has none but this
    first.strum(1, 4.5, "x57565").strum(2, 1, "x57565").strum(3, 1, "2x22xx");
    CHECK(first.judged().totals.count(assess::Verdict::laid_out) == 0);
}

TEST_CASE("a grip that is all of the chord lands it, not two strings that both chords have") {
    Comper ahead("Cmaj7 | Am7", 120);
    ahead.strum(1, 1, "x3x45x").strum(1, 4.5, "xxx55x", 0, 0.4).strum(2, 1, "5x55xx", 5);
    CHECK(said(ahead.change(2)) == "on_time +5 at 0");
    Comper nearer("Cmaj7 | Am7", 120);
    nearer.strum(1, 1, "x3x45x").strum(2, 1, "xxx55x", -70, 0.2).strum(2, 1, "5x55xx", 80);
    CHECK(said(nearer.change(2)) == "late +80 at 0");
    Comper whole("Dm7 | F#m7", 120);
    whole.strum(1, 1, "x5x56x").strum(1, 4.5, "xx77xx", 0, 0.4).strum(2, 1, "2x22xx", 70);
    CHECK(said(whole.change(2)) == "late +70 at 0");
}

TEST_CASE("of strums that fit alike the one nearest to where the chord is due lands it") {
    Comper sixth("C6 | Am7", 120);
    sixth.strum(1, 1, "8x798x").strum(1, 4.5, "8x798x").strum(2, 1, "8x798x", 30);
    sixth.strum(2, 2, "8x798x");
    CHECK(readings(sixth.judged()) == "landing again landing again");
    CHECK(said(sixth.change(2)) == "on_time +30 at 0");
    // A diminished seventh's inversions: every grip of it is a minor third from the next.
    Comper diminished("Bdim7 | Ddim7", 120);
    diminished.strum(1, 1, "x2313x").strum(1, 3, "x5646x").strum(2, 1, "x8979x", -20);
    diminished.strum(2, 2, "x5646x");
    CHECK(readings(diminished.judged()) == "landing again landing again");
    CHECK(said(diminished.change(2)) == "on_time -20 at 0");
}

TEST_CASE("a grip with one finger a fret off is the chord with a slip") {
    Comper third("Dm7 | G7 | Cmaj7", 120);  // B flat for B
    third.strum(1, 1, "x5x56x").strum(2, 1, "3x33xx", 10).strum(3, 1, "x3x45x");
    CHECK(readings(third.judged()) == "landing landing landing");
    CHECK(said(third.change(2)) == "on_time +10 at 0, wrong");
    Comper seventh("Dm7 | G7 | Cmaj7", 120);  // B flat for B, of the last
    seventh.strum(1, 1, "x5x56x").strum(2, 1, "3x34xx").strum(3, 1, "x3x35x", 70);
    CHECK(said(seventh.change(3)) == "late +70 at 0, wrong");
    // The chord before explains it as well, but the hand has moved: C for C sharp.
    Comper moved("Am7 | A7 | Cmaj7", 120);
    moved.strum(1, 1, "5x55xx").strum(2, 1, "x-12-x-12-13-x").strum(3, 1, "x3x45x");
    CHECK(readings(moved.judged()) == "landing landing landing");
    CHECK(said(moved.change(2)) == "on_time +0 at 0, wrong");
}

TEST_CASE("the grip of the chord before, not moved, is the chord before and no slip") {
    Comper comper("Am7 | A7 | Cmaj7", 120);
    comper.strum(1, 1, "5x55xx").strum(2, 1, "5x55xx").strum(3, 1, "x3x45x");
    CHECK(readings(comper.judged()) == "landing old landing");
    CHECK(comper.verdicts() == "on_time missed on_time");
    Comper lowered("Cmaj7 | C7 | Fm7", 120);  // B where B flat was due
    lowered.strum(1, 1, "x3x45x").strum(2, 1, "x3x45x").strum(3, 1, "1x11xx");
    CHECK(lowered.verdicts() == "on_time missed on_time");
    Comper near("Cmaj7 | Em | Ab7", 120);  // all of E minor, and a C
    near.strum(1, 1, "x3545x").strum(2, 1, "x3545x").strum(3, 1, "4x45xx");
    CHECK(readings(near.judged()) == "landing old landing");
    CHECK(near.verdicts() == "on_time missed on_time");
}

TEST_CASE("a finger that stays where it was makes the chord wrong, not missed") {
    Comper comper("A7 | Dm7 | G7", 120);  // C sharp on string 3
    comper.strum(1, 1, "5x56xx").strum(2, 1, "x5x66x").strum(3, 1, "3x34xx");
    CHECK(comper.verdicts() == "on_time on_time/wrong on_time");
    REQUIRE(comper.change(2).wrong.size() == 1);
    CHECK(comper.change(2).wrong[0].stuck_finger);
}

TEST_CASE("a string that rings over for a moment costs nothing, much longer it is wrong") {
    // F sharp of E flat minor on string 2 under G7 on strings 6 to 4.
    const auto rung_over = [](double tempo, double over_ms) {
        Comper comper("Ebm7 | G7", tempo);
        comper.strum(1, 1, "xxx676", 0, 4 + over_ms * tempo / 60000);
        comper.strum(2, 1, "323xxx", 0, 2);
        return said(comper.change(2));
    };
    for (const double over : {20.0, 50.0, 90.0, 118.0}) {
        INFO(over);
        CHECK(rung_over(120, over) == "on_time +0 at 0");
        CHECK(rung_over(240, over) == "on_time +0 at 0");
    }
    CHECK(rung_over(60, 240) == "on_time +0 at 0");  // a quarter of a beat
    CHECK(rung_over(60, 300) == "on_time +0 at 0, wrong");
    CHECK(rung_over(120, 180) == "on_time +0 at 0, wrong");
    CHECK(rung_over(240, 180) == "on_time +0 at 0, wrong");
}
