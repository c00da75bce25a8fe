#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"

#include <array>

using namespace compline;
using tests::Comper;
using tests::readings;
using tests::said;

// What each strum was meant for. Shells: Dm7 x5x56x, G7 3x34xx, Cmaj7 x3x45x, A7 5x56xx.

TEST_CASE("a chord lands once, and what follows of it is the chord again, whatever the grip") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x").strum(1, 2.5, "x5x56x").strum(1, 4, "xx7565");
    comper.strum(2, 1, "3x34xx").strum(2, 3, "xx3433");
    CHECK(readings(comper.judged()) == "landing again again landing again");
    CHECK(comper.change(1).inside == 2);
}

TEST_CASE("the old grip where the new one was due is the old chord, and the new one lands later") {
    Comper comper("Dm7 | F#m7", 120);
    comper.strum(1, 1, "x5x56x").strum(2, 1, "x5x56x").strum(2, 2, "2x22xx");
    CHECK(readings(comper.judged()) == "landing old landing");
    CHECK(said(comper.change(2)) == "late +500 at 0");
    Comper never("Dm7 | F#m7", 120);
    never.strum(1, 1, "x5x56x").strum(2, 1, "x5x56x");
    CHECK(readings(never.judged()) == "landing old");
    CHECK(said(never.change(2)) == "missed");
}

TEST_CASE("a grip a fret or two from where it goes is an approach, from below and from above") {
    struct Slide {
        const char* bars;
        const char* from;
        const char* to;
    };
    for (const Slide& slide :
         {Slide{"G6 | Dm7", "x4x45x", "x5x56x"}, Slide{"G6 | Dm7", "x3x34x", "x5x56x"},
          Slide{"G6 | Dm7", "x6x67x", "x5x56x"}, Slide{"G6 | Cmaj7", "x5x67x", "x3x45x"}}) {
        for (const double beat : {4.0, 4.5}) {
            Comper comper(slide.bars, 120);
            comper.strum(1, 1, "3x243x").strum(1, beat, slide.from, 0, 0.4);
            comper.strum(2, 1, slide.to, 12);
            INFO(slide.from << " on beat " << beat);
            CHECK(readings(comper.judged()) == "landing approach landing");
            CHECK(said(comper.change(2)) == "on_time +12 at 0");
        }
    }
}

TEST_CASE("an approach into a chord that is laid out leaves it laid out") {
    Comper through("Cmaj7 | F7 | Dm7", 120);
    through.strum(1, 1, "x3x45x").strum(2, 4.5, "x4x45x", 0, 0.4).strum(3, 1, "x5x56x");
    CHECK(readings(through.judged()) == "landing approach landing");
    CHECK(through.verdicts() == "on_time laid_out on_time");
    Comper never("Cmaj7 | Dm7 | Ab7", 120);
    never.strum(1, 1, "x3x45x").strum(1, 4.5, "x4x45x", 0, 0.4).strum(3, 1, "4x45xx");
    CHECK(never.verdicts() == "on_time laid_out on_time");
}

TEST_CASE("an up-stroke just before the beat lands nothing, the down-stroke does") {
    for (const double ahead : {65.0, 80.0, 100.0, 120.0, 140.0}) {
        for (const char* up : {"3x34xx", "xx34xx"}) {
            for (const double late : {-15.0, 0.0}) {
                Comper comper("Dm7 | G7", 120);
                comper.strum(1, 1, "x5x56x", 0, 2).strum(2, 1, up, late - ahead, 0.5);
                comper.strum(2, 1, "3x34xx", late);
                INFO(up << ", " << ahead << " ms ahead of " << late);
                CHECK(readings(comper.judged()) == "landing up_stroke landing");
                CHECK(comper.change(2).verdict == assess::Verdict::on_time);
                CHECK(comper.change(2).lateness->milliseconds() == Approx(late).margin(0.001));
            }
        }
    }
}

TEST_CASE("a broken chord is one landing, and as late as its first note") {
    // G B F on strings 6, 4 and 3, in string order and not, close together and over more than half
    // a beat.
    for (const auto& order : {std::array{6, 4, 3}, std::array{6, 3, 4}, std::array{4, 6, 3}}) {
        for (const double step : {80.0, 150.0, 180.0}) {
            for (const double late : {-30.0, 0.0, 30.0}) {
                Comper comper("Dm7 | G7", 120);
                comper.strum(1, 1, "x5x56x");
                double at = late;
                for (const int string : order) {
                    comper.note(2, 1, string, string == 3 ? 4 : 3, at, 3);
                    at += step;
                }
                INFO(order[0] << order[1] << order[2] << " every " << step << ", late " << late);
                CHECK(readings(comper.judged()) == "landing landing");
                const auto broken = comper.change(2);
                CHECK(broken.verdict == assess::Verdict::on_time);
                CHECK(broken.lateness->milliseconds() == Approx(late).margin(0.001));
                CHECK(broken.spread->milliseconds() == Approx(2 * step).margin(0.001));
                CHECK(broken.tones == assess::Tones::right);
            }
        }
    }
}

TEST_CASE("a foreign grip on a weak place that resolves is passing, any other is outside") {
    Comper resolves("C6 | Dm7", 120);
    resolves.strum(1, 1, "x3x25x").strum(1, 4, "x4x35x").strum(2, 1, "x5x56x");
    CHECK(readings(resolves.judged()) == "landing passing landing");
    Comper strong("C6 | Dm7", 120);
    strong.strum(1, 1, "x3x25x").strum(1, 3, "x4x35x").strum(1, 4, "x3x25x").strum(2, 1, "x5x56x");
    CHECK(readings(strong.judged()) == "landing outside again landing");
    CHECK(strong.change(1).outside == 1);
}

TEST_CASE("lines and double-stops are fills, low notes bass, dead strums chunks") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x").strum(1, 2, "x5x56x", 0, 0.08);
    comper.note(1, 2.5, 1, 7).strum(1, 3, "xxxx86", 0, 0.4).note(1, 3.5, 2, 9);
    comper.note(1, 4, 6, 2).strum(2, 1, "3x34xx");
    CHECK(readings(comper.judged()) == "landing chunk fill fill fill bass landing");
    CHECK(comper.change(1).inside + comper.change(1).passing + comper.change(1).outside == 0);
}

TEST_CASE("a fill note a beat ahead is no landing, though with what rings it makes the chord") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x", 0, 4).note(1, 4, 3, 4).strum(2, 1, "3x34xx", 8);
    CHECK(readings(comper.judged()) == "landing fill landing");
    CHECK(said(comper.change(2)) == "on_time +8 at 0");
}

TEST_CASE("one new note over ringing strings lands a change, a lone bass note does not") {
    Comper voice("Dm7 | G7", 120);
    voice.strum(1, 1, "x5x56x", 0, 8).note(2, 1, 3, 4, 10, 3);  // C falls to B
    CHECK(readings(voice.judged()) == "landing landing");
    CHECK(said(voice.change(2)) == "on_time +10 at 0");
    for (const double beat : {3.5, 4.0, 4.5}) {
        Comper bass("Dm | G7", 120);  // over F and D that ring the B alone would make the chord
        bass.strum(1, 1, "xx3x3x", 0, 4.5).note(1, beat, 5, 2, 0, 2).strum(2, 1, "3x34xx", 15);
        INFO(beat);
        CHECK(readings(bass.judged()) == "landing bass landing");
        CHECK(said(bass.change(2)) == "on_time +15 at 0");
        Comper lone("Dm | G7", 120);
        lone.strum(1, 1, "xx3x3x", 0, 4.5).note(1, beat, 5, 2);
        CHECK(readings(lone.judged()) == "landing bass");
    }
}

TEST_CASE("a dead strum before the beat is no landing") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x").strum(1, 4.5, "3x34xx", 0, 0.08).strum(2, 1, "3x34xx", 90);
    CHECK(readings(comper.judged()) == "landing chunk landing");
    CHECK(said(comper.change(2)) == "late +90 at 0");
}

TEST_CASE("what is played where there is no chord is nobody's matter") {
    Comper comper("Dm7 | N.C. | G7", 120);
    comper.strum(1, 1, "x5x56x").strum(2, 2, "x4x45x").strum(2, 3, "x4x45x");
    comper.strum(2, 4, "3x34xx").strum(3, 1, "3x34xx", 20);
    const auto judged = comper.judged();
    CHECK(comper.verdicts() == "on_time on_time");
    CHECK(said(judged.changes[1]) == "on_time +20 at 0");
    CHECK(judged.changes[0].inside + judged.changes[0].passing + judged.changes[0].outside == 0);
    CHECK(readings(judged) == "landing passing passing passing landing");
}
