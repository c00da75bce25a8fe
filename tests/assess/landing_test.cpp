#include "support/catch.hpp"
#include "support/comper.hpp"

#include <string_view>

using namespace compline;
using assess::Verdict;
using tests::Comper;

// Grips: Dm7 x5x56x, G7 3x34xx, Cmaj7 x3x45x, A7 5x56xx, Dm7 on strings 5-3-2.

TEST_CASE("chords struck on their beats are on time, and their tones are right") {
    Comper comper("Dm7 | G7 | Cmaj7 | A7", 132);
    comper.strum(1, 1, "x5x56x").strum(2, 1, "3x34xx").strum(3, 1, "x3x45x").strum(4, 1, "5x56xx");
    CHECK(comper.verdicts() == "on_time on_time on_time on_time");
    CHECK(comper.change(1).lateness->milliseconds() == Approx(0).margin(1e-6));
    CHECK(!comper.change(1).from.has_value());
    CHECK(comper.change(2).from->symbol() == "Dm7");
    CHECK(!comper.judged().weakest.has_value());
}

TEST_CASE("a late change is late by as much as it is, and the player's own time is taken off") {
    Comper comper("Dm7 | G7", 132);
    comper.strum(1, 1, "x5x56x", 20).strum(1, 3, "x5x56x", 20).strum(2, 1, "3x34xx", 62);
    const auto late = comper.change(2);
    CHECK(late.verdict == assess::Verdict::late);
    CHECK(late.lateness->milliseconds() == Approx(62).margin(0.001));
    CHECK(late.relative->milliseconds() == Approx(42).margin(0.001));
    CHECK(late.beats_in == 0);
    CHECK(late.cost() == Approx(62.0 / 200));
}

TEST_CASE("Charleston over a blues: 1 and the off-beat after 2") {
    Comper comper("F7 | Bb7 | F7 | F7", 132, "F");
    comper.swing(2.58);
    for (int bar = 1; bar <= 4; ++bar) {
        const char* grip = bar == 2 ? "x1x13x" : "1x12xx";
        comper.strum(bar, 1, grip).strum(bar, 2.5, grip);
    }
    CHECK(comper.verdicts() == "on_time on_time on_time");
    CHECK(comper.change(2).inside == 1);
    CHECK(comper.judged().time.all.count == 8);
}

TEST_CASE("push into the next bar: anywhere from the straight to the swung off-beat is right") {
    for (const double late : {0.0, -60.0, -90.0, 30.0}) {
        Comper comper("Dm7 | G7", 132);
        comper.swing(2.58).strum(1, 1, "x5x56x", 0, 1).strum(1, 4.5, "3x34xx", late, 2);
        const auto pushed = comper.change(2);
        CHECK(pushed.verdict == assess::Verdict::pushed);
        CHECK(pushed.lateness->milliseconds() == Approx(late).margin(0.001));
        CHECK(pushed.beats_in == -0.5);
        assess::Settings no_pushes;
        no_pushes.pushes = false;
        CHECK(comper.change(2, no_pushes).verdict == assess::Verdict::early);
    }
}

TEST_CASE("an off-beat within the bar is the swung one, and nothing straighter") {
    // 132 bpm at 2.58:1: the straight off-beat lies 100 ms before the swung one.
    for (const double late : {0.0, -40.0, 35.0}) {
        Comper comper("Dm7 | G7", 132);
        comper.swing(2.58).strum(1, 1, "x5x56x", 0, 2).strum(2, 2.5, "3x34xx", late, 1);
        INFO(late);
        for (const char* rhythm : {"free", "2&"}) {
            const auto landed = comper.change(2, tests::with_rhythm(rhythm));
            const bool named = std::string_view(rhythm) != "free";
            CHECK(landed.verdict == (named ? Verdict::on_time : Verdict::placed));
            CHECK(landed.lateness->milliseconds() == Approx(late).margin(0.001));
            CHECK(landed.beats_in == 1.5);
        }
    }
    Comper dragged("Dm7 | G7", 132);
    dragged.swing(2.58).strum(1, 1, "x5x56x", 0, 2).strum(2, 2.5, "3x34xx", 55, 1);
    CHECK(dragged.change(2).verdict == Verdict::late);
    CHECK(dragged.change(2).beats_in == 1.5);
    // Straight, it is late for the beat before.
    Comper straight("Dm7 | G7", 132);
    straight.swing(2.58).strum(1, 1, "x5x56x", 0, 2).strum(2, 2.5, "3x34xx", -100, 1);
    CHECK(straight.change(2).verdict == Verdict::late);
    CHECK(straight.change(2).beats_in == 1);
    CHECK(straight.change(2).lateness->milliseconds() == Approx(227.58).margin(0.01));
    // What comes between a beat and the off-beat is as late as it is for its beat.
    Comper late("Dm7 | G7", 132);
    late.swing(2.58).strum(1, 1, "x5x56x", 0, 2).strum(2, 1, "3x34xx", 130, 1);
    CHECK(late.change(2).verdict == Verdict::late);
    CHECK(late.change(2).lateness->milliseconds() == Approx(130).margin(0.001));
    CHECK(late.change(2).beats_in == 0);
    // Its last strings come near the off-beat at a fast tempo, and excuse nothing.
    Comper fast("Dm7 | F#m7", 240);
    fast.swing(1.74).spread(4).strum(1, 1, "x5x56x", 0, 1).strum(2, 1, "2x22xx", 95, 1);
    CHECK(fast.change(2).cost() > 0);
}

TEST_CASE(
    "in free comping a chord may be placed later in its bar, or a whole beat early by habit") {
    Comper comper("Dm7 | G7 | Cmaj7 | A7 | Dm7", 120);
    comper.strum(1, 1, "x5x56x", 0, 1).strum(1, 4, "3x34xx", 5, 2).strum(3, 2.5, "x3x45x", 12);
    CHECK(comper.verdicts() == "on_time early placed laid_out laid_out");
    CHECK(comper.change(2).beats_in == 0);
    CHECK(comper.change(2).lateness->milliseconds() == Approx(-495).margin(0.001));
    comper.strum(3, 4, "5x56xx", -8, 2);
    CHECK(comper.verdicts() == "on_time pushed placed pushed laid_out");
    CHECK(comper.change(2).beats_in == -1);
    CHECK(comper.change(3).beats_in == 1.5);
    CHECK(comper.change(3).lateness->milliseconds() == Approx(12).margin(0.001));
}

TEST_CASE("landing on a later beat while the old chord rings on is late") {
    Comper comper("Dm7 | F#m7", 120);
    comper.strum(1, 1, "x5x56x", 0, 5).strum(2, 2, "2x22xx");
    const auto late = comper.change(2);
    CHECK(late.verdict == assess::Verdict::late);
    CHECK(late.lateness->milliseconds() == Approx(500).margin(0.001));
    CHECK(late.cost() == Approx(1));
    Comper let_go("Dm7 | F#m7", 120);
    let_go.strum(1, 1, "x5x56x", 0, 3.5).strum(2, 2, "2x22xx");
    CHECK(let_go.change(2).verdict == Verdict::placed);
}

TEST_CASE("open strings of the old chord may die away into the new one") {
    Comper comper("Am7 | Ebmaj7", 120);
    comper.strum(1, 1, "x02010", 0, 5).strum(2, 2, "x6878x");
    // Strings 5 and 1 are open; the fretted ones are struck again or let go.
    const auto landed = comper.change(2);
    CHECK(landed.verdict == assess::Verdict::late);  // string 4, 3 and 2 were fretted and rang on
    Comper open("Am7 | Ebmaj7", 120);
    open.strum(1, 1, "xx2x1x", 0, 3).strum(1, 1, "x0xxx0", 0, 5).strum(2, 2, "x6878x");
    CHECK(open.change(2).verdict == Verdict::placed);
}

TEST_CASE("four to the bar: a chord on the second beat is late by a beat") {
    const auto four = tests::with_rhythm("four");
    Comper comper("Dm7 | G7", 120);
    for (int beat = 1; beat <= 4; ++beat) comper.strum(1, beat, "x5x56x", 0, 0.5);
    for (int beat = 2; beat <= 4; ++beat) comper.strum(2, beat, "3x34xx", 0, 0.5);
    CHECK(comper.verdicts(four) == "on_time late");
    CHECK(comper.change(2, four).lateness->milliseconds() == Approx(500).margin(0.001));
    CHECK(comper.judged(four).time.missing_strums == 1);
    CHECK(comper.verdicts() == "on_time placed");
}

TEST_CASE("one voice moved over ringing strings is a change") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "xx3x6x", 0, 8).strum(1, 1, "x5x5xx", 0, 8);
    comper.strum(2, 1, "xxx4xx", 10, 3);  // C on string 3 falls to B
    const auto moved = comper.change(2);
    CHECK(moved.verdict == assess::Verdict::on_time);
    CHECK(moved.lateness->milliseconds() == Approx(10).margin(0.001));
    CHECK(moved.tones == assess::Tones::right);
}

TEST_CASE("a lone bass note before the beat is a lead-in, not the landing") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x", 0, 2).strum(1, 4.5, "3xxxxx", 0, 0.4).strum(2, 1, "3x34xx", 15);
    const auto landed = comper.change(2);
    CHECK(landed.verdict == assess::Verdict::on_time);
    CHECK(landed.lateness->milliseconds() == Approx(15).margin(0.001));
    // Over a chord that rings on, the bass note alone would make an F of it.
    Comper ringing("Am7 | F6", 120);
    ringing.strum(1, 1, "xx555x", 0, 4.5).strum(1, 4.5, "1xxxxx", 0, 0.4).strum(2, 1, "1x02xx", 15);
    CHECK(ringing.change(2).verdict == assess::Verdict::on_time);
    CHECK(ringing.change(2).lateness->milliseconds() == Approx(15).margin(0.001));
}

TEST_CASE("a dead strum before the beat is not the landing") {
    Comper comper("Dm7 | F#m7", 120);
    comper.strum(1, 1, "x5x56x", 0, 2).strum(1, 4.5, "2x22xx", 0, 0.1).strum(2, 1, "2x22xx", 12);
    CHECK(comper.change(2).verdict == assess::Verdict::on_time);
    CHECK(comper.change(2).lateness->milliseconds() == Approx(12).margin(0.001));
}

TEST_CASE("a grip from a fret below is the approach, and the arrival is the landing") {
    Comper comper("Cmaj7 | Dm7", 120);
    comper.strum(1, 1, "x3x45x", 0, 2).strum(1, 4.5, "x4x45x", 0, 0.4).strum(2, 1, "x5x56x", 8);
    const auto landed = comper.change(2);
    CHECK(landed.verdict == assess::Verdict::on_time);
    CHECK(landed.lateness->milliseconds() == Approx(8).margin(0.001));
    CHECK(landed.tones == assess::Tones::right);
    // From two frets above, where three of four tones would do.
    Comper above("Bb7 | Am7", 120);
    above.strum(1, 1, "6x67xx", 0, 2).strum(1, 4.5, "7x777x", 0, 0.4).strum(2, 1, "5x555x", 6);
    CHECK(above.verdicts() == "on_time on_time");
    CHECK(above.change(2).lateness->milliseconds() == Approx(6).margin(0.001));
}

TEST_CASE("slid in, the pick or the arrival is judged, whichever is nearer the beat") {
    Comper pick("Cmaj7 | Dm7", 120);
    pick.strum(1, 1, "x3x45x", 0, 2).strum(2, 1, "x4x45x", 5, 0.2).strum(2, 1.2, "x5x56x").slid();
    CHECK(pick.change(2).lateness->milliseconds() == Approx(5).margin(0.001));
    Comper arrival("Cmaj7 | Dm7", 120);
    arrival.strum(1, 1, "x3x45x", 0, 2).strum(2, 1, "x4x45x", -100, 0.19);
    arrival.strum(2, 1, "x5x56x", 4).slid();
    CHECK(arrival.change(2).lateness->milliseconds() == Approx(4).margin(0.001));
    CHECK(arrival.change(2).tones == assess::Tones::right);
}

TEST_CASE("held: nothing struck, and what rings is the new chord too") {
    Comper comper("C6 | Am7", 120);
    comper.strum(1, 1, "x3x25x", 0, 8);  // C A E
    const auto held = comper.change(2, tests::with_rhythm("free"));
    CHECK(held.verdict == assess::Verdict::missed);  // no G: the seventh of Am7 is not there
    Comper full("C6 | Am7", 120);
    full.strum(1, 1, "x32213", 0, 8);  // C E A C G
    CHECK(full.verdicts() == "on_time held");
    CHECK(full.change(2).tones == assess::Tones::right);
    CHECK(!full.change(2).lateness.has_value());
    CHECK(full.change(2).cost() == 0);
}

TEST_CASE("laid out in free comping costs nothing; in four to the bar it is missed") {
    Comper comper("Dm7 | G7 | Cmaj7", 120);
    comper.strum(1, 1, "x5x56x", 0, 1).strum(3, 1, "x3x45x");
    CHECK(comper.verdicts() == "on_time laid_out on_time");
    CHECK(comper.verdicts(tests::with_rhythm("four")) == "on_time missed on_time");
}

TEST_CASE("missed: the old chord rings on wrongly, or is struck again") {
    Comper rings("Dm7 | F#m7 | Dm7", 120);
    rings.strum(1, 1, "x5x56x", 0, 7.5).strum(3, 1, "x5x56x");
    CHECK(rings.change(2).verdict == assess::Verdict::missed);
    CHECK(rings.change(2).cost() == 1);
    Comper struck("Dm7 | F#m7 | Dm7", 120);
    struck.strum(1, 1, "x5x56x").strum(2, 1, "x5x56x").strum(2, 3, "x5x56x").strum(3, 1, "x5x56x");
    CHECK(struck.change(2).verdict == assess::Verdict::missed);
    CHECK(struck.change(2).tones == assess::Tones::none);
}

TEST_CASE("chords that share their notes are never missed, early or late by 200 ms") {
    struct Pair {
        const char* bars;
        const char* first;
        const char* second;
    };
    const Pair pairs[] = {{"C6 | Am7", "x3221x", "5x55xx"},
                          {"Ebmaj7 | Cm7", "x6878x", "x3534x"},
                          {"Dm7 | F6", "x5756x", "1x02xx"},
                          {"Bdim7 | Ddim7", "x2313x", "x5646x"}};
    for (const auto& pair : pairs) {
        for (double late = -200; late <= 200; late += 25) {
            Comper comper(pair.bars, 120);
            comper.strum(1, 1, pair.first, 0, 1).strum(1, 3, pair.first, 0, 0.9);
            comper.strum(2, 1, pair.second, late, 2);
            const auto change = comper.change(2);
            INFO(pair.bars << " " << late << " " << assess::name_of(change.verdict));
            CHECK(change.verdict != assess::Verdict::missed);
            CHECK(change.verdict != assess::Verdict::held);
            // 500 ms a beat: 200 ms away is in time for the off-beat, and pushes may come late.
            const double off = late < -125 ? late + 250 : late == 200 ? -50 : late;
            CHECK(change.lateness->milliseconds() == Approx(off).margin(0.001));
        }
    }
}

TEST_CASE("opens on the second: the third of a dominant may arrive on beat 3") {
    Comper comper("Cmaj7 | G7 | Cmaj7", 120);
    comper.strum(1, 1, "x3x45x").strum(2, 1, "x5x56x").strum(2, 3, "3x34xx").strum(3, 1, "x3x45x");
    CHECK(comper.verdicts(tests::with_rhythm("1 3")) == "on_time on_time on_time");
    Comper never("Cmaj7 | G7 | Cmaj7", 120);
    never.strum(1, 1, "x3x45x").strum(2, 1, "x5x56x").strum(3, 1, "x3x45x");
    CHECK(never.verdicts() == "on_time on_time/incomplete on_time");
    CHECK(never.change(2).missing.front().name() == "3");
}

TEST_CASE(
    "the old grip struck again before the beat, or a fill on it, does not hide a late change") {
    const auto four = tests::with_rhythm("four");
    Comper restruck("Dm7 | G7", 120);
    restruck.strum(1, 1, "x5x56x", 0, 3).strum(1, 4.7, "x5x56x", 0, 0.8);
    restruck.strum(2, 1, "3x34xx", 200);
    CHECK(restruck.change(2, four).verdict == assess::Verdict::late);
    CHECK(restruck.change(2, four).lateness->milliseconds() == Approx(200).margin(0.001));
    Comper fill("Dm7 | G7", 120);
    fill.strum(1, 1, "x5x56x", 0, 5).strum(2, 1, "xxxxx5", 30, 0.3).strum(2, 1, "3x34xx", 200);
    CHECK(fill.change(2, four).verdict == assess::Verdict::late);
    CHECK(fill.change(2, four).lateness->milliseconds() == Approx(200).margin(0.001));
}

TEST_CASE("a single note that fits both chords yields to a voicing of the new one") {
    // C6 and Am7 share their notes; G over ringing C6 says nothing.
    Comper voicing("C6 | Am7", 120);
    voicing.strum(1, 1, "x3221x", 0, 3.4).note(1, 4.5, 1, 3, 0, 0.4).strum(2, 2, "5x555x", 7);
    CHECK(voicing.change(2).beats_in == 1);
    CHECK(voicing.change(2).lateness->milliseconds() == Approx(7).margin(0.001));
    // Of single notes alone the one that tells the new chord is its landing: not the root it
    // shares, but its third.
    Comper third("Eb | Bb", 120, "Eb");
    third.strum(1, 1, "x6x3xx", 0, 3).note(1, 4, 2, 8, 0, 1);  // E flat and B flat, then G
    third.note(1, 4.5, 4, 8, 0, 4).note(2, 3, 3, 7, 9, 1);     // B flat, then D over it
    CHECK(third.change(2).beats_in == 2);
}

TEST_CASE("a strum lands one change at most") {
    Comper comper("C6 Am7 Dm7 G7", 60);
    comper.strum(1, 1, "x32213", 450, 0.9).strum(1, 3, "x5x56x", 0, 0.8).strum(1, 4, "3x34xx");
    const auto changes = comper.judged().changes;
    REQUIRE(changes.size() == 4);
    // Half a beat late for the one, half a beat ahead for the other, and right for both.
    CHECK(changes[0].verdict == Verdict::laid_out);
    CHECK(changes[1].verdict == Verdict::pushed);
    CHECK(changes[2].verdict == Verdict::on_time);
}

TEST_CASE("dead strums on 2 and 4 keep time and say nothing about tones") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x", 0, 0.8).strum(1, 2, "x5x56x", 0, 0.08);
    comper.strum(1, 4, "x5x56x", 0, 0.08).strum(2, 1, "3x34xx", 0, 0.8);
    comper.strum(2, 2, "4x45xx", 0, 0.08).strum(2, 4, "4x45xx", 0, 0.08);
    CHECK(comper.verdicts() == "on_time on_time");
    CHECK(comper.change(2).outside == 0);
    CHECK(comper.judged().time.all.count == 6);
}

TEST_CASE("a rolled chord is on time when any part of it is") {
    Comper comper("Dm7 | G7", 132);
    comper.spread(18).strum(1, 1, "x5x56x").strum(2, 1, "3x34xx", -55);
    CHECK(comper.change(2).verdict == assess::Verdict::on_time);
    CHECK(comper.change(2).spread->milliseconds() == Approx(36).margin(0.001));
    CHECK(comper.change(2).lateness->milliseconds() == Approx(-55).margin(0.001));
}

TEST_CASE("N.C. is not judged, and the chord after it comes from nowhere") {
    Comper comper("Dm7 | N.C. | Dm7", 120);
    comper.strum(1, 1, "x5x56x").strum(3, 1, "x5x56x");
    const auto changes = comper.judged().changes;
    REQUIRE(changes.size() == 2);
    CHECK(!changes[1].from.has_value());
    CHECK(changes[1].bar == 3);
}

TEST_CASE("a repeated chord is one change, also across the seam of choruses") {
    Comper comper("Dm7 | Dm7 | G7 | Dm7", 120);
    comper.times(2);
    const auto changes = comper.judged().changes;
    REQUIRE(changes.size() == 5);
    CHECK(changes[3].time_through == 2);
    CHECK(changes[3].bar == 3);
}

TEST_CASE("a loop's seam is marked where the tune has no such change") {
    Comper loop("Dm7 | G7 | Cmaj7 | A7", 120);
    loop.passage(1, 2).times(2);
    const auto looped = loop.judged().changes;
    REQUIRE(looped.size() == 4);
    CHECK(looped[2].seam);
    CHECK(looped[2].from->symbol() == "G7");
    Comper chorus("Dm7 | G7 | Cmaj7 | A7", 120);
    chorus.times(2);
    CHECK(!chorus.judged().changes[4].seam);
}

TEST_CASE("changes within a second of lost sound are uncertain, and judged all the same") {
    Comper comper("Dm7 | G7 | Cmaj7 | A7", 120);
    comper.strum(1, 1, "x5x56x").strum(2, 1, "3x34xx", 80).strum(3, 1, "x3x45x");
    comper.interrupted(2, 2.5);
    CHECK(comper.verdicts() == "on_time late on_time laid_out");
    CHECK_FALSE(comper.change(1).uncertain);
    CHECK(comper.change(2).uncertain);
    CHECK_FALSE(comper.change(3).uncertain);
    comper.interrupted(4, 2);
    CHECK(comper.change(4).uncertain);
}

TEST_CASE("changes that may have been played while the cable was out are uncertain, not missed") {
    // A bar every two seconds; the cable is out from bar 3 to bar 6.
    Comper comper("Dm7 | G7 | Cmaj7 | A7 | Dm7 | G7 | Cmaj7 | A7 | Fmaj7", 120);
    comper.cable_out(3, 3, 6, 1);
    comper.strum(1, 1, "x5x56x").strum(2, 1, "3x34xx").strum(7, 2, "x3x45x").strum(8, 1, "5x56xx");
    const auto judged = comper.judged();
    std::string uncertain;
    for (const auto& change : judged.changes) uncertain += change.uncertain ? '?' : '.';
    // Bar 3 was not struck before the cable was out, bar 6 not after it was in again.
    CHECK(uncertain == "..????...");
    CHECK(judged.changes[3].unheard);
    CHECK(judged.totals.uncertain == 4);
    CHECK(judged.totals.changes == 5);
    CHECK(judged.totals.count(assess::Verdict::missed) == 0);
    // What was struck in time is certain, however near the next chord the cable was out.
    Comper certain("Dm7 | G7 | Cmaj7 | A7", 120);
    certain.strum(1, 1, "x5x56x").strum(2, 1, "3x34xx").cable_out(2, 3.5, 2, 4);
    CHECK_FALSE(certain.change(2).uncertain);
    CHECK(certain.change(3).uncertain);
}

TEST_CASE("a change that there was no time left to play is not judged, one that was played is") {
    Comper comper("Dm7 | G7 | Cmaj7 | A7", 120);
    comper.strum(1, 1, "x5x56x").strum(2, 1, "3x34xx", 20);
    CHECK(Comper(comper).until(2, 1.25).verdicts() == "on_time on_time");
    CHECK(Comper(comper).until(3, 1).verdicts() == "on_time on_time");
    CHECK(Comper(comper).until(3, 2.5).verdicts() == "on_time on_time");
    CHECK(Comper(comper).until(3, 3.5).verdicts() == "on_time on_time laid_out");
    CHECK(Comper(comper).until(4, 1).verdicts() == "on_time on_time laid_out");
}
