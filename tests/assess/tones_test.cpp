#include "support/catch.hpp"
#include "support/comper.hpp"

using namespace compline;
using tests::Comper;

TEST_CASE("a foreign tone is named with string, fret and the nearest right fret") {
    Comper comper("A7 | Dm7", 120);
    comper.strum(1, 1, "5x56xx").strum(2, 1, "x5x66x");
    const auto wrong = comper.change(2);
    CHECK(wrong.tones == assess::Tones::wrong);
    REQUIRE(wrong.wrong.size() == 1);
    CHECK(wrong.wrong[0].string == 3);
    CHECK(wrong.wrong[0].fret == 6);
    CHECK(wrong.wrong[0].spelling.name() == "C♯");
    CHECK(wrong.wrong[0].nearest_fret == 5);
    CHECK(wrong.wrong[0].nearest.name() == "C");
    CHECK(wrong.cost() == Approx(0.5));
    // As near either way: F rather than the root; and A rather than B, the lower of two that tell.
    Comper tie("Dm7 | G7", 120);
    tie.strum(1, 1, "x5x56x").strum(2, 1, "3x3x7x");  // F sharp between F and G
    CHECK(tie.change(2).wrong.at(0).nearest_fret == 6);
    Comper both("Dm7 | Cmaj7", 120);
    both.strum(1, 1, "x5x56x").strum(2, 1, "x323xx");  // B flat between A and B
    CHECK(both.change(2).wrong.at(0).nearest_fret == 2);
}

TEST_CASE("a finger that stays where it was right is a stuck finger") {
    // A7's C sharp on string 3, kept by mistake.
    Comper struck_again("A7 | Dm7", 120);
    struck_again.strum(1, 1, "5x56xx").strum(2, 1, "x5x66x");
    CHECK(struck_again.change(2).wrong[0].stuck_finger);
    Comper rings("A7 | Dm7", 120);
    rings.strum(1, 1, "xxx6xx", 0, 8).strum(1, 1, "5x5xxx", 0, 3).strum(2, 1, "x53x6x");
    const auto ringing = rings.change(2);
    REQUIRE(ringing.wrong.size() == 1);
    CHECK(ringing.wrong[0].string == 3);
    CHECK(ringing.wrong[0].stuck_finger);
    // The sharp ninth of a blues' one, right over its third, kept where it is wrong.
    Comper blue("F7 | Cmaj7 | Bb7", 120, "F");
    blue.strum(1, 1, "x8789x").strum(2, 1, "x3x49x").strum(3, 1, "x1x13x");
    REQUIRE(blue.change(2).wrong.size() == 1);
    CHECK(blue.change(2).wrong[0].string == 2);
    CHECK(blue.change(2).wrong[0].stuck_finger);
    Comper slip("G7 | Dm7", 120);
    slip.strum(1, 1, "3x34xx").strum(2, 1, "x5x66x");
    CHECK(!slip.change(2).wrong[0].stuck_finger);
}

TEST_CASE("fingers that lift just after the new chord is struck are not held against it") {
    Comper comper("A7 | Dm7", 120);
    comper.strum(1, 1, "xxxx22", 0, 4.04).strum(1, 1, "5x56xx", 0, 3.9).strum(2, 1, "x5x5xx");
    CHECK(comper.change(2).tones == assess::Tones::incomplete);  // no third, but nothing foreign
}

TEST_CASE("a missing seventh is incomplete after half of the chord and its next strum") {
    Comper late_seventh("Cmaj7 | G7", 120);
    late_seventh.strum(1, 1, "x3x45x").strum(2, 1, "3xx4xx").strum(2, 3, "3x34xx");
    CHECK(late_seventh.change(2).tones == assess::Tones::right);
    Comper never("Cmaj7 | G7", 120);
    never.strum(1, 1, "x3x45x").strum(2, 1, "3xx4xx").strum(2, 4, "3x34xx");
    CHECK(never.change(2).tones == assess::Tones::right);
    never.strum(2, 2, "3xx4xx");
    const auto incomplete = never.change(2);
    CHECK(incomplete.tones == assess::Tones::incomplete);
    CHECK(incomplete.missing.front().name() == "b7");
    CHECK(incomplete.cost() == Approx(0.25));
}

TEST_CASE("four to the bar with passing chords: foreign on a weak beat, resolving, costs nothing") {
    Comper comper("C6 | Dm7", 120);
    comper.strum(1, 1, "x3x25x").strum(1, 2, "x3x25x").strum(1, 3, "x3x25x");
    comper.strum(1, 4, "x4x35x");  // C sharp diminished, on the way to D minor
    comper.strum(2, 1, "x5x56x").strum(2, 2, "x5x56x").strum(2, 3, "x5x56x").strum(2, 4, "x5x56x");
    const auto four = tests::with_rhythm("four");
    CHECK(comper.verdicts(four) == "on_time on_time");
    CHECK(comper.change(1, four).passing == 1);
    CHECK(comper.change(1, four).outside == 0);
    Comper strong("C6 | Dm7", 120);
    strong.strum(1, 1, "x3x25x").strum(1, 3, "x4x35x").strum(1, 4, "x3x25x").strum(2, 1, "x5x56x");
    CHECK(strong.change(1).outside == 1);
    Comper lost("C6 | Dm7", 120);  // weak, but it goes nowhere
    lost.strum(1, 1, "x3x25x").strum(1, 2, "x4x35x").strum(1, 3, "x4x36x").strum(2, 1, "x5x56x");
    CHECK(lost.change(1).passing == 0);
    CHECK(lost.change(1).outside == 2);
}

TEST_CASE("written strictness wants the slash bass lowest") {
    assess::Settings written;
    written.strictness = harmony::Strictness::written;
    Comper low("C/E | F", 120);
    low.strum(1, 1, "0x2010").strum(2, 1, "133211");
    CHECK(low.change(1, written).tones == assess::Tones::right);
    Comper high("C/E | F", 120);
    high.strum(1, 1, "x32010").strum(2, 1, "133211");
    CHECK(high.change(1, written).tones == assess::Tones::incomplete);
    CHECK(high.change(1, written).missing.front().name() == "3");
    CHECK(high.change(1).tones == assess::Tones::right);
}

TEST_CASE("context makes tensions right: a dominant that falls, a blues, a tonic minor") {
    Comper falls("G7 | Cmaj7", 120);
    falls.strum(1, 1, "3x344x").strum(2, 1, "x3x45x");  // E flat, the flat thirteenth
    CHECK(falls.change(1).tones == assess::Tones::right);
    Comper stays("Eb7 | F7", 120, "F");
    stays.strum(1, 1, "x6565x").strum(2, 1, "1x12xx");  // E natural on E flat seven, going up
    CHECK(stays.change(1).tones == assess::Tones::wrong);
    Comper blues("F7 | Bb7", 120, "F");
    blues.strum(1, 1, "x8789x").strum(2, 1, "x1x13x");  // the sharp ninth of the one
    CHECK(blues.change(1).tones == assess::Tones::right);
    Comper minor("Cm7 | Fm7", 120, "Cm");
    minor.strum(1, 1, "x3124x").strum(2, 1, "1x11xx");  // C E flat A E flat: the sixth
    CHECK(minor.change(1).wrong.empty());
    Comper elsewhere("Cm7 | F7", 120, "Bb");
    elsewhere.strum(1, 1, "x3124x").strum(2, 1, "1x12xx");
    CHECK(elsewhere.change(1).tones == assess::Tones::wrong);
}

TEST_CASE("verdicts do not change when tune and player move together to another key") {
    const char* keys[] = {"C", "Db", "D", "Eb", "E", "F"};
    const char* bars[] = {"Dm7 | G7 | Cmaj7 | A7",   "Ebm7 | Ab7 | Dbmaj7 | Bb7",
                          "Em7 | A7 | Dmaj7 | B7",   "Fm7 | Bb7 | Ebmaj7 | C7",
                          "F#m7 | B7 | Emaj7 | C#7", "Gm7 | C7 | Fmaj7 | D7"};
    std::string first;
    for (int up = 0; up < 6; ++up) {
        Comper comper(bars[up], 132, keys[up]);
        const auto grip = [&](const char* text) {
            auto moved = tests::shape(text);
            for (auto& fret : moved.frets) {
                if (fret) *fret += up;
            }
            return moved.text();
        };
        comper.strum(1, 1, grip("x5x56x"), 10).strum(2, 1, grip("3x33xx"), 70);
        comper.strum(3, 1, grip("x3x45x"), -60).strum(4, 1, grip("5xx6xx"), 0);
        if (up == 0) first = comper.verdicts();
        CHECK(comper.verdicts() == first);
    }
    CHECK(first == "on_time late/wrong early on_time/incomplete");
}
