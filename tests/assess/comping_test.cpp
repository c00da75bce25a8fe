#include "support/catch.hpp"
#include "support/comper.hpp"

#include <fmt/format.h>

#include <string>
#include <vector>

using namespace compline;
using assess::Tones;
using assess::Verdict;
using tests::Comper;

// What compers do for a living, whole passages of it.

namespace {

/// What is said of a change, in a line: wrong tones by string/fret.
std::string said(const assess::Change& change) {
    auto text = fmt::format("{} {} {}", change.to.symbol(), assess::name_of(change.verdict),
                            assess::name_of(change.tones));
    for (const auto& wrong : change.wrong)
        text += fmt::format(" {}/{}", *wrong.string, *wrong.fret);
    return text;
}

/// Bar, beat, grip: a chorus of a blues in F, two chords in bars 4, 8, 11 and 12.
struct Chord {
    int bar;
    bool second;  // of two in its bar
    const char* grip;
};
const std::vector<Chord> blues_chorus = {
    {1, false, "x8789x"},  {2, false, "x1012x"}, {3, false, "1x12xx"},  {4, false, "x3534x"},
    {4, true, "x8789x"},   {5, false, "6x67xx"}, {6, false, "x2313x"},  {7, false, "1x121x"},
    {8, false, "5x554x"},  {8, true, "x5454x"},  {9, false, "3x333x"},  {10, false, "x3231x"},
    {11, false, "1x12xx"}, {11, true, "x5453x"}, {12, false, "3x333x"}, {12, true, "x3231x"}};

const char* const blues_bars =
    "F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7b9 | Gm7 | C7 | F7 D7 | Gm7 C7";

/// The Charleston: 1 and the off-beat after 2. The second chord of a bar is pushed on the off-beat.
Comper charleston(int choruses) {
    Comper comper(blues_bars, 132, "F");
    comper.swing(2.58).times(choruses);
    for (int chorus = 0; chorus < choruses; ++chorus) {
        for (const auto& chord : blues_chorus) {
            const int bar = 12 * chorus + chord.bar;
            if (!chord.second) comper.strum(bar, 1, chord.grip, 6, 0.9);
            const bool two = chord.bar == 4 || chord.bar == 8 || chord.bar >= 11;
            if (chord.second || !two) comper.strum(bar, 2.5, chord.grip, -5, 1.2);
        }
    }
    return comper;
}

}  // namespace

TEST_CASE("Charleston over a blues: three choruses, sharp ninths on the one and the four") {
    const auto comper = charleston(3);
    for (const char* rhythm : {"free", "1 2&"}) {
        const auto judged = comper.judged(tests::with_rhythm(rhythm));
        REQUIRE(judged.totals.changes == 48);
        CHECK(judged.totals.count(Verdict::on_time) == 36);
        CHECK(judged.totals.count(Verdict::pushed) == 12);
        CHECK(judged.totals.right_tones == 48);
        CHECK(!judged.weakest.has_value());
        for (const auto& change : judged.changes) {
            INFO(change.bar << " " << said(change));
            CHECK(change.outside + change.passing == 0);
            CHECK(change.lateness->milliseconds() ==
                  Approx(change.verdict == Verdict::pushed ? -5 : 6).margin(0.001));
        }
        CHECK(judged.time.all.count == 72);
        CHECK(judged.time.missing_strums == 0);
    }
}

TEST_CASE("Charleston over a blues: a minor third on the one is no sharp ninth") {
    Comper comper(blues_bars, 132, "F");
    comper.swing(2.58);
    comper.strum(1, 1, "x868xx").strum(1, 2.5, "x868xx").strum(2, 1, "x1013x");
    const auto first = comper.change(1);
    CHECK(said(first) == "F7 on_time wrong 4/6");
    CHECK(first.wrong[0].nearest_fret == 7);
    CHECK(first.outside == 1);
    CHECK(said(comper.change(2)) == "B♭7 on_time right");
}

TEST_CASE("a sixth is as good as a major seventh, a minor third is not as good as a major") {
    Comper sixth("Cmaj7 | Fmaj7", 120);
    sixth.strum(1, 1, "x3x25x").strum(2, 1, "1x02xx");  // C A E; F D A
    CHECK(sixth.verdicts() == "on_time on_time");
    Comper minor("Cmaj7 | Fmaj7", 120);
    minor.strum(1, 1, "x3x44x").strum(2, 1, "1x21xx");  // E flat for E; A flat for A
    CHECK(said(minor.change(1)) == "Cmaj7 on_time wrong 2/4");
    CHECK(said(minor.change(2)) == "Fmaj7 on_time wrong 3/1");
}

TEST_CASE("four to the bar with diminished passing chords: a beat of each before the next chord") {
    const auto four = tests::with_rhythm("four");
    Comper comper("C6 | Dm7 | Em7 | A7 | Dm7 | G7 | C6 | %", 152);
    comper.swing(2.3);
    const char* grips[] = {"x3x25x", "x5x56x", "x7x78x", "5x56xx",
                           "x5x56x", "3x34xx", "x3x25x", "x3x25x"};
    // On the fourth beat, a semitone below the next root: C#, D#, G#, C#, F#, B.
    const char* passing[] = {"x4x35x", "x6x57x", "4x34xx", "x4x35x", "2x12xx", "x2x13x"};
    for (int bar = 1; bar <= 8; ++bar) {
        for (int beat = 1; beat <= 4; ++beat) {
            const bool passes = beat == 4 && bar <= 6;
            comper.strum(bar, beat, passes ? passing[bar - 1] : grips[bar - 1], 0, 0.6);
        }
    }
    const auto judged = comper.judged(four);
    CHECK(comper.verdicts(four) == "on_time on_time on_time on_time on_time on_time on_time");
    CHECK(comper.verdicts() == comper.verdicts(four));
    for (std::size_t n = 0; n < 6; ++n) {
        INFO(said(judged.changes[n]));
        CHECK(judged.changes[n].outside == 0);
        // Over A7 and G7 the passing chord is their own flat ninth.
        const bool inside = n == 3 || n == 5;
        CHECK(judged.changes[n].passing == (inside ? 0 : 1));
        CHECK(judged.changes[n].inside == (inside ? 3 : 2));
    }
    CHECK(judged.changes[6].inside == 7);
    CHECK(judged.time.missing_strums == 0);
}

TEST_CASE("four to the bar with diminished passing chords: two beats of each in a bar") {
    Comper comper("C6 | Dm7 | C6", 120);
    const char* grips[] = {"x3x25x", "x4x35x", "x5x56x", "x6x57x"};
    for (int n = 0; n < 8; ++n) comper.strum(1 + n / 4, 1 + n % 4, grips[n / 2], 0, 0.6);
    comper.strum(3, 1, "0x223x");  // C6 over its third
    for (const char* rhythm : {"free", "four"}) {
        const auto changes = comper.judged(tests::with_rhythm(rhythm)).changes;
        CHECK(said(changes[0]) == "C6 on_time right");
        CHECK(said(changes[1]) == "Dm7 on_time right");
        CHECK(said(changes[2]) == "C6 on_time right");
        for (std::size_t n = 0; n < 2; ++n) {
            CHECK(changes[n].inside == 1);
            CHECK(changes[n].passing == 2);
            CHECK(changes[n].outside == 0);
        }
    }
    // A third that slips for two beats is no chord of its own.
    Comper slips("Dm7 | G7", 120);
    slips.strum(1, 1, "x5x56x").strum(1, 3, "x5x57x").strum(1, 4, "x5x57x").strum(2, 1, "3x34xx");
    CHECK(slips.change(1).outside == 2);
    // Nor is it passing when it leads nowhere, or fills more than the second half of the bar.
    Comper nowhere("C6 | Dm7", 120);
    nowhere.strum(1, 1, "x3x25x").strum(1, 3, "x4x35x").strum(1, 4, "x4x35x").strum(2, 1, "x7x68x");
    CHECK(nowhere.change(1).outside == 2);
    Comper early("C6 | Dm7", 120);
    early.strum(1, 1, "x3x25x").strum(1, 2, "x4x35x").strum(1, 3, "x4x35x").strum(1, 4, "x4x35x");
    early.strum(2, 1, "x5x56x");
    CHECK(early.change(1).outside == 3);
}

TEST_CASE("push into every A section: the first chord of each A comes on the off-beat before") {
    const auto form =
        tests::form_of({{"A", "F6 | Gm7 C7"}, {"B", "A7 | D7 | G7 | C7"}}, "A, A, B, A", "F");
    Comper comper(form, 160);
    comper.swing(2).times(2);
    for (int bar = 1; bar <= 20; ++bar) {
        const int in_form = (bar - 1) % 10 + 1;
        const char* b_part[] = {"5x56xx", "x5453x", "3x34xx", "x3231x"};
        const bool is_a = in_form <= 4 || in_form >= 9;
        if (is_a && in_form % 2 == 1) {
            comper.strum(bar - 1, 4.5, "1x023x", 8, 2);
        } else if (is_a) {
            comper.strum(bar, 1, "3x333x").strum(bar, 3, "x3231x");
        } else {
            comper.strum(bar, 1, b_part[in_form - 5]);
        }
    }
    const auto judged = comper.judged();
    int pushed = 0;
    for (const auto& change : judged.changes) {
        INFO(change.time_through << " " << change.bar << " " << said(change));
        const bool opens_a = change.section == "A" && change.to.symbol() == "F6";
        CHECK(change.verdict == (opens_a ? Verdict::pushed : Verdict::on_time));
        CHECK(change.tones == Tones::right);
        if (!opens_a) continue;
        ++pushed;
        CHECK(change.beats_in == -0.5);
        CHECK(change.lateness->milliseconds() == Approx(8).margin(0.001));
    }
    CHECK(pushed == 6);
    // Who wants no pushes hears of each.
    assess::Settings strict;
    strict.pushes = false;
    CHECK(comper.judged(strict).totals.count(Verdict::early) == 6);
}

TEST_CASE("a new grip that was pushed may be struck again on the beat, late or not") {
    // C6 and Am7 are the same notes: nothing but the grip tells when the change came.
    for (const double late : {0.0, 40.0, 80.0}) {
        Comper comper("C6 | Am7", 120);
        comper.swing(2).strum(1, 1, "x3221x", 0, 2).strum(1, 4.5, "5x555x", 4, 0.5);
        comper.strum(2, 1, "5x555x", late, 1);
        INFO(late);
        const auto pushed = comper.change(2);
        CHECK(pushed.verdict == Verdict::pushed);
        CHECK(pushed.lateness->milliseconds() == Approx(4).margin(0.001));
        CHECK(pushed.inside == 1);
    }
    // The old grip on that off-beat is still the old chord, and the new one late.
    Comper old("C6 | Am7", 80);
    old.swing(3).strum(1, 1, "x3221x", 0, 2).strum(1, 4.5, "x3221x", 4, 0.5);
    old.strum(2, 1, "5x555x", 195, 1);
    CHECK(old.change(2).verdict == Verdict::late);
    CHECK(old.change(2).lateness->milliseconds() == Approx(195).margin(0.001));
}

TEST_CASE("shell, then one voice moves: two strings ring on through a ii-V-I") {
    Comper comper("Dm7 | G7 | Cmaj7", 132);
    comper.strum(1, 1, "x5xx6x", 0, 8).note(1, 1, 3, 5, 0, 3.9);
    comper.note(2, 1, 3, 4, 12, 7);                          // C falls to B
    comper.note(3, 1, 2, 5, 70, 3).note(3, 1, 5, 3, 72, 3);  // F falls to E, D to C
    CHECK(comper.verdicts() == "on_time on_time late");
    CHECK(comper.change(2).lateness->milliseconds() == Approx(12).margin(0.001));
    CHECK(comper.change(3).lateness->milliseconds() == Approx(70).margin(0.001));
    CHECK(comper.judged().totals.right_tones == 3);

    Comper wrong("Dm7 | G7", 132);
    wrong.strum(1, 1, "x5xx6x", 0, 8).note(1, 1, 3, 5, 0, 3.9).note(2, 1, 3, 3, 0, 3);
    CHECK(said(wrong.change(2)) == "G7 on_time wrong 3/3");
    CHECK(wrong.change(2).wrong[0].nearest_fret == 4);

    Comper stays("Dm7 | G7", 132);  // C rings on: the third of G7 never comes
    stays.strum(1, 1, "x5x56x", 0, 8);
    CHECK(stays.change(2).verdict == Verdict::missed);
}

TEST_CASE("dead strums on 2 and 4: for time, never for tones, and no landing") {
    Comper comper("Dm7 | G7 | Cmaj7 | A7", 132);
    const char* grips[] = {"x5x56x", "3x34xx", "x3x45x", "5x56xx"};
    for (int bar = 1; bar <= 4; ++bar) {
        comper.strum(bar, 1, grips[bar - 1], 5, 0.8).strum(bar, 3, grips[bar - 1], 5, 0.8);
        // The hand relaxes on whatever it lies on: here a fret too high.
        const auto dead = tests::higher(grips[bar - 1], 1);
        comper.strum(bar, 2, dead, -15, 0.08).strum(bar, 4, dead, -15, 0.08);
    }
    for (const char* rhythm : {"free", "four"}) {
        const auto judged = comper.judged(tests::with_rhythm(rhythm));
        CHECK(judged.totals.count(Verdict::on_time) == 4);
        CHECK(judged.totals.right_tones == 4);
        for (const auto& change : judged.changes) {
            CHECK(change.inside == 1);
            CHECK(change.outside + change.passing == 0);
        }
        CHECK(judged.time.all.count == 16);
        CHECK(*judged.time.all.mean_ms == Approx(-5).margin(0.001));
        CHECK(judged.time.missing_strums == 0);
    }
}

TEST_CASE(
    "opens on the second, the third arrives by beat 3 or with the next strum, and not later") {
    Comper comper("Cmaj7 | G7 | Cmaj7", 120);
    comper.strum(1, 1, "x3x45x");
    comper.strum(2, 1, "3x323x").strum(2, 3, "3x343x");  // G F A D, then B for A
    comper.strum(3, 1, "x3x45x");
    CHECK(comper.verdicts() == "on_time on_time on_time");
    CHECK(comper.change(2).inside == 1);
    CHECK(comper.change(2).missing.empty());
    Comper late("Cmaj7 | G7 | Cmaj7", 120);
    late.strum(1, 1, "x3x45x").strum(2, 1, "3x323x").strum(2, 4, "3x343x").strum(3, 1, "x3x45x");
    CHECK(late.verdicts() == "on_time on_time on_time");
    late.strum(2, 2.5, "3x323x");
    CHECK(late.verdicts() == "on_time on_time/incomplete on_time");
    CHECK(late.change(2).missing.front().name() == "3");
    Comper minor("Cmaj7 | G7 | Cmaj7", 120);  // what arrives is a minor third
    minor.strum(1, 1, "x3x45x").strum(2, 1, "3x323x").strum(2, 3, "3x333x").strum(3, 1, "x3x45x");
    CHECK(minor.verdicts() == "on_time on_time/incomplete on_time");
    CHECK(minor.change(2).outside == 1);
}

TEST_CASE("slides in from a fret below: the arrival is judged, and its tones") {
    for (const double late : {-12.0, 0.0, 18.0, 70.0}) {
        Comper comper("Cmaj7 | Dm7", 120);
        comper.strum(1, 1, "x3x45x", 0, 2).strum(2, 1, "x4x45x", late - 160, 0.3);
        comper.strum(2, 1, "x5x56x", late).slid();
        INFO(late);
        const auto slid = comper.change(2);
        CHECK(slid.verdict == (late > 50 ? Verdict::late : Verdict::on_time));
        CHECK(slid.lateness->milliseconds() == Approx(late).margin(0.001));
        CHECK(slid.tones == Tones::right);
    }
    // It never arrives: a fret below is not the chord.
    Comper below("Cmaj7 | Dm7", 120);
    below.strum(1, 1, "x3x45x", 0, 2).strum(2, 1, "x4x45x", 0, 2);
    CHECK(below.change(2).verdict == Verdict::missed);
    // It goes a fret too far.
    Comper above("Cmaj7 | Dm7", 120);
    above.strum(1, 1, "x3x45x", 0, 2).strum(2, 1, "x4x45x", -130, 0.24);
    above.strum(2, 1, "x6x67x", 0).slid();
    CHECK(above.change(2).verdict == Verdict::missed);
}

TEST_CASE("single-note fills between chords have no verdict and stay out of the time") {
    Comper plain("Dm7 | G7 | Cmaj7", 120);
    plain.strum(1, 1, "x5x56x", 3).strum(2, 1, "3x34xx", 3).strum(3, 1, "x3x45x", 3);
    Comper fills(plain);
    // Eighths up to the next chord, foreign ones among them, and none of them in time.
    for (int bar = 1; bar <= 2; ++bar) {
        fills.note(bar, 2.5, 1, 7, 70).note(bar, 3, 1, 8, 60).note(bar, 3.5, 1, 9, 80);
        fills.note(bar, 4, 2, 9, 90).note(bar, 4.5, 2, 11, -60, 0.3);
    }
    CHECK(fills.verdicts() == plain.verdicts());
    const auto judged = fills.judged();
    for (const auto& change : judged.changes) {
        CHECK(change.inside + change.passing + change.outside == 0);
        CHECK(change.wrong.empty());
        CHECK(change.lateness->milliseconds() == Approx(3).margin(0.001));
    }
    CHECK(judged.time.all.count == 3);
    CHECK(*judged.time.all.mean_ms == Approx(3).margin(0.001));
}

TEST_CASE("bass notes on strings 5 and 6 between chords have no verdict, nor do they land") {
    Comper comper("Dm7 | G7 | Cmaj7", 120);
    comper.strum(1, 1, "xxx56x", 0, 0.8).strum(2, 1, "xx34xx", 20, 0.8);
    comper.strum(3, 1, "xxx45x", 0, 0.8);
    // A bass of its own, walking: roots, fifths and the semitone below what comes.
    comper.note(1, 1.5, 5, 5, 66).note(1, 3, 6, 5, 66).note(1, 4, 6, 2, 66);
    comper.note(2, 2, 6, 3, 66).note(2, 3, 5, 5, 66).note(2, 4, 5, 2, 66);
    const auto judged = comper.judged();
    CHECK(judged.totals.count(Verdict::on_time) == 3);
    CHECK(judged.changes[1].lateness->milliseconds() == Approx(20).margin(0.001));
    for (const auto& change : judged.changes) {
        CHECK(change.wrong.empty());
        CHECK(change.inside + change.passing + change.outside == 0);
    }
    CHECK(judged.time.all.count == 3);
    // The chord itself never comes: its bass note alone lands nothing.
    Comper alone("Dm7 | G7 | Cmaj7", 120);
    alone.strum(1, 1, "xxx56x", 0, 0.8).note(2, 1, 6, 3, 0, 3).strum(3, 1, "xxx45x");
    CHECK(alone.verdicts() == "on_time laid_out on_time");
}

TEST_CASE("the nearest right fret is named for each string") {
    const std::vector<int> dm7 = {10, 12, 10, 10, 10, 10};  // string 6 to 1: D A C F A D
    const char* names[] = {"D♯", "A♯", "C♯", "F♯", "A♯", "D♯"};
    for (int string = 6; string >= 1; --string) {
        std::string grip;
        for (int s = 6; s >= 1; --s) {
            const int fret = dm7[static_cast<std::size_t>(6 - s)];
            grip += fmt::format("{}{}", s == 6 ? "" : "-", s == string ? fret + 1 : fret);
        }
        Comper comper("Dm7 | %", 120);
        comper.strum(1, 1, grip);
        const auto change = comper.change(1);
        INFO(grip << " " << said(change));
        REQUIRE(change.wrong.size() == 1);
        const auto& wrong = change.wrong[0];
        CHECK(wrong.string == string);
        const int right = dm7[static_cast<std::size_t>(6 - string)];
        CHECK(wrong.fret == right + 1);
        CHECK(wrong.nearest_fret == right);
        CHECK(wrong.note.pitch_class() == (wrong.nearest.pitch_class() + 1) % 12);
        CHECK(wrong.note.pitch_class() == [&] {
            std::size_t length = 0;
            return harmony::read_spelling(names[6 - string], length)->pitch_class();
        }());
        CHECK(!wrong.stuck_finger);
    }
}

TEST_CASE("the same tone on another string is no stuck finger, but a slip") {
    Comper stuck("A7 | Dm7", 120);
    stuck.strum(1, 1, "5x56xx").strum(2, 1, "x5x66x");  // C sharp stays on string 3
    CHECK(stuck.change(2).wrong.at(0).stuck_finger);
    Comper moved("A7 | Dm7", 120);
    moved.strum(1, 1, "5x56xx").strum(2, 1, "x53x2x");  // C sharp, now on string 2
    REQUIRE(moved.change(2).wrong.size() == 1);
    CHECK(moved.change(2).wrong[0].string == 2);
    CHECK(!moved.change(2).wrong[0].stuck_finger);
    Comper touched("A7 | Dm7", 120);  // on its string, but after another note there
    touched.strum(1, 1, "5x56xx").note(1, 3, 3, 2).strum(2, 1, "x5x66x");
    CHECK(!touched.change(2).wrong.at(0).stuck_finger);
}
