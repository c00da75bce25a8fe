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

TEST_CASE("a rhythm's time is given for each of its written beats, with what is missing there") {
    Comper comper("Dm7 | % | G7 | Cmaj7", 120);
    comper.swing(2);
    const char* grips[] = {"x5x56x", "x5x56x", "3x34xx", "x3x45x"};
    for (int bar = 1; bar <= 4; ++bar) {
        comper.strum(bar, 1, grips[bar - 1], 4.0 * bar, 0.8);  // 4 8 12 16
        if (bar != 2) comper.strum(bar, 2.5, grips[bar - 1], bar == 3 ? -18 : -9, 0.8);
        if (bar == 4) comper.strum(bar, 4, grips[bar - 1], 30, 0.8);  // more than was asked for
    }
    const auto time = comper.judged(tests::with_rhythm("1 2&")).time;
    REQUIRE(time.per_beat.size() == 2);
    CHECK(time.per_beat[0].in_bar == time::Ticks(0));
    CHECK(time.per_beat[0].strums.count == 4);
    CHECK(*time.per_beat[0].strums.mean_ms == Approx(10).margin(0.001));
    CHECK(*time.per_beat[0].strums.sd_ms == Approx(5.164).margin(0.001));
    CHECK(time.per_beat[0].missing == 0);
    CHECK(time.per_beat[1].in_bar == time::Ticks(1440));
    CHECK(time.per_beat[1].strums.count == 3);
    CHECK(*time.per_beat[1].strums.mean_ms == Approx(-12).margin(0.001));
    CHECK(time.per_beat[1].missing == 1);
    CHECK(time.missing_strums == 1);
    CHECK(comper.judged().time.per_beat.empty());
    CHECK(comper.judged().time.missing_strums == 0);
}

TEST_CASE("missing strums are counted where they are due, once each: four, patterns, a waltz") {
    Comper four("Dm7 | % | N.C. | Dm7", 120);
    four.times(2);
    for (int bar = 1; bar <= 8; ++bar) {
        for (int beat = 1; beat <= 4; ++beat) {
            const bool silent = (bar == 2 && beat != 1) || bar % 4 == 3 || (bar == 8 && beat == 3);
            if (!silent) four.strum(bar, beat, "x5x56x", 0, 0.5);
        }
        // Extra off-beats fill no beat, and two strums are not two beats.
        if (bar % 4 != 3) four.strum(bar, 1.5, "x5x56x", 0, 0.3);
    }
    const auto missing = [](const assess::TimeKeeping& time) {
        std::vector<int> counts;
        for (const auto& beat : time.per_beat) counts.push_back(beat.missing);
        return counts;
    };
    CHECK(missing(four.judged(tests::with_rhythm("four")).time) == std::vector{0, 1, 2, 1});
    CHECK(four.judged(tests::with_rhythm("four")).time.missing_strums == 4);
    CHECK(missing(four.judged(tests::with_rhythm("1 2 3 4")).time) == std::vector{0, 1, 2, 1});
    CHECK(missing(four.judged(tests::with_rhythm("2& 4&")).time) == std::vector{6, 6});
    // What was not heard any more is not missing.
    CHECK(missing(Comper(four).until(2, 3).judged(tests::with_rhythm("four")).time) ==
          std::vector{0, 1, 0, 0});

    Comper waltz("Dm7 | G7", 180, "C", 3);
    waltz.strum(1, 1, "x5x56x").strum(1, 3, "x5x56x").strum(2, 1, "3x34xx").strum(2, 2, "3x34xx");
    assess::Settings three = tests::with_rhythm("four");
    CHECK(missing(waltz.judged(three).time) == std::vector{0, 1, 1});
}

TEST_CASE("a chord that comes 200 ms late is late on its own beat, not early on an off-beat") {
    Comper comper("Dm7 | G7", 120);
    comper.swing(2.6);  // the off-beat lies 361 ms after the beat
    for (int beat = 1; beat <= 4; ++beat) comper.strum(1, beat, "x5x56x", 0, 0.5);
    comper.strum(2, 1, "3x34xx", 200, 0.4);
    for (int beat = 2; beat <= 4; ++beat) comper.strum(2, beat, "3x34xx", 0, 0.5);
    const auto four = comper.judged(tests::with_rhythm("four"));
    CHECK(four.changes[1].lateness->milliseconds() == Approx(200).margin(0.001));
    CHECK(four.time.missing_strums == 0);
    CHECK(four.time.off_beats.count == 0);
    CHECK(*four.time.per_beat[0].strums.mean_ms == Approx(100).margin(0.001));
    CHECK(comper.judged().time.off_beats.count == 0);
    const auto late = comper.judged().strums.at(4);
    CHECK(late.read_as == assess::ReadAs::landing);
    CHECK(late.beat == time::BeatOfBar(1));
    CHECK(late.asynchrony.milliseconds() == Approx(200).margin(0.001));
}

TEST_CASE("a push stands for the beat it was pushed from") {
    Comper comper("Dm7 | G7", 120);
    comper.swing(2.6);
    for (int beat = 1; beat <= 4; ++beat) comper.strum(1, beat, "x5x56x", 0, 0.5);
    comper.strum(1, 4.5, "3x34xx", 6, 1);
    for (int beat = 2; beat <= 4; ++beat) comper.strum(2, beat, "3x34xx", 0, 0.5);
    const auto judged = comper.judged(tests::with_rhythm("four"));
    CHECK(judged.changes[1].verdict == assess::Verdict::pushed);
    CHECK(judged.time.missing_strums == 0);
    CHECK(judged.time.per_beat[0].strums.count == 1);
    CHECK(judged.time.off_beats.count == 1);
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
    CHECK(*comper.silent(3, 4).judged().time.drift_ms_per_bar == Approx(4).margin(0.01));
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
