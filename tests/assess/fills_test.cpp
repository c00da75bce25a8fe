#include "support/catch.hpp"
#include "support/comper.hpp"

using namespace compline;
using tests::Comper;

// What is played between the changes, and what leads into them, by hands that are never exact.

TEST_CASE("a double-stop between chords is a fill: no verdict, and not in the time statistics") {
    Comper thirds("Dm7 | G7", 120);
    thirds.strum(1, 1, "x5x56x").strum(1, 3, "xxx67x", 30, 0.4).strum(1, 3.5, "xxx56x", 30, 0.4);
    thirds.strum(2, 1, "3x34xx");
    CHECK(thirds.verdicts() == "on_time on_time");
    CHECK(thirds.change(1).outside == 0);
    CHECK(thirds.change(1).passing == 0);
    CHECK(thirds.change(1).inside == 1);  // F and C, strings of the grip: comping
    CHECK(thirds.judged().time.all.count == 3);
    Comper high("Dm7 | G7", 120);
    high.strum(1, 1, "x5x56x").strum(1, 2.5, "xxxx86", 0, 0.4).strum(2, 1, "3x34xx");
    CHECK(high.change(1).outside == 0);
    CHECK(high.judged().time.all.count == 2);
}

TEST_CASE("two strings of the grip struck again are comping") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x").strum(1, 2.5, "xxx56x", 8).strum(1, 4, "xx3x6x", -8);
    comper.strum(2, 1, "3x34xx");
    CHECK(comper.judged().time.all.count == 4);
    CHECK(comper.change(1).inside == 2);
}

TEST_CASE("an approach a beat before is one, though both its strums are a little off") {
    for (const double late : {-12.0, -2.0, 2.0, 12.0}) {
        Comper comper("Am7 | D13 | G6", 120, "G");
        comper.strum(1, 1, "5x55xx", 0, 0.8).strum(1, 4, "x6x68x");
        comper.strum(2, 1, "x5x57x", late).strum(3, 1, "3x24xx");
        INFO(late);
        CHECK(comper.verdicts() == "on_time on_time on_time");
        CHECK(comper.change(2).lateness->milliseconds() == Approx(late).margin(0.001));
    }
}

TEST_CASE("a passing chord of a beat is not too long for a hair") {
    for (const double off : {0.0, 15.0, 30.0}) {
        Comper comper("C6 | Dm7", 120);
        comper.strum(1, 1, "x3x25x").strum(1, 4, "x4x35x", -off).strum(2, 1, "x5x56x", off);
        INFO(off);
        CHECK(comper.change(1).passing == 1);
        CHECK(comper.change(1).outside == 0);
        Comper back("C6 | Dm7", 120);
        back.strum(1, 1, "x3x25x").strum(1, 2, "x4x35x", -off).strum(1, 3, "x3x25x", off);
        back.strum(2, 1, "x5x56x");
        CHECK(back.change(1).passing == 1);
        CHECK(back.change(1).outside == 0);
    }
}

TEST_CASE("a stuck finger was right on the chord before, not on the one before that") {
    // D sharp on string 2: in A flat, not struck on G7, a wrong third on C7.
    Comper two_ago("Abmaj7 | G7 | C7", 120);
    two_ago.strum(1, 1, "4x554x", 0, 1).strum(2, 1, "3x34xx", 0, 1).strum(3, 1, "x3x34x");
    REQUIRE(two_ago.change(3).wrong.size() == 1);
    CHECK_FALSE(two_ago.change(3).wrong[0].stuck_finger);
    // Held through a chord that was not struck, it was right there too.
    Comper held("Dm7 | F6 | Fm7", 120);
    held.strum(1, 1, "x5756x", 0, 7.9).strum(3, 1, "1x789x");
    CHECK(held.change(2).verdict == assess::Verdict::held);
    const auto landed = held.change(3);
    REQUIRE(landed.wrong.size() == 1);
    CHECK(landed.wrong[0].stuck_finger);
    // Not struck again: F rings on from Dm7 through G7, where it belongs, into Cmaj7.
    Comper rings("Dm7 | G7 | Cmaj7", 120);
    rings.strum(1, 1, "xxxx6x", 0, 9).strum(1, 1, "x5x5xx").strum(2, 1, "3x34xx");
    rings.strum(3, 1, "x324xx");
    REQUIRE(rings.change(3).wrong.size() == 1);
    CHECK(rings.change(3).wrong[0].stuck_finger);
}
