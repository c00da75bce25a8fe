// Faults in words: what a guitarist reads of one change.

#include "report/hand_made.hpp"
#include "support/catch.hpp"

using namespace compline;
using namespace compline::tests;
using assess::Change;
using assess::Tones;
using assess::Verdict;
using Lines = std::vector<std::string>;

namespace {

Change late_by(double ms, double beats_in) {
    Change change = a_change();
    change.verdict = ms > 0 ? Verdict::late : Verdict::early;
    change.lateness = time::from_milliseconds(ms);
    change.beats_in = beats_in;
    return change;
}

/// C sharp on string 3, a fret above C.
assess::WrongTone c_sharp() {
    assess::WrongTone wrong;
    wrong.note = harmony::MidiNote(61);
    wrong.spelling = chord("C#").root;
    wrong.string = 3;
    wrong.fret = 6;
    wrong.nearest_fret = 5;
    wrong.nearest = chord("C").root;
    return wrong;
}

Change with_wrong(const assess::WrongTone& wrong) {
    Change change = a_change();
    change.tones = Tones::wrong;
    change.wrong = {wrong};
    return change;
}

Lines problems_of(const Change& change, bool with_time_through) {
    return report::problems_of(change, with_time_through, through(thirty_two_bars(), 30));
}

}  // namespace

TEST_CASE("what is right is not a problem", "[report]") {
    for (const auto verdict :
         {Verdict::on_time, Verdict::pushed, Verdict::placed, Verdict::held, Verdict::laid_out}) {
        Change change = a_change();
        change.verdict = verdict;
        CHECK(problems_of(change, false).empty());
    }
}

TEST_CASE("a late change is named by bar, move and milliseconds", "[report]") {
    CHECK(problems_of(late_by(62.4, 0), false) == Lines{"bar 7  A7 → Dm7  late 62 ms"});
    CHECK(problems_of(late_by(-80, 0), false) == Lines{"bar 7  A7 → Dm7  early 80 ms"});
}

TEST_CASE("the time through is named where there were several, the beat where it is not 1",
          "[report]") {
    Change change = late_by(62, 0);
    CHECK(problems_of(change, true) == Lines{"2nd time  bar 7  A7 → Dm7  late 62 ms"});
    change.time_through = 11;
    change.beat = time::BeatOfBar(3);
    CHECK(problems_of(change, true) == Lines{"11th time  bar 7 beat 3  A7 → Dm7  late 62 ms"});
    change.time_through = 23;
    change.beat = time::BeatOfBar(2.5);
    CHECK(problems_of(change, true) == Lines{"23rd time  bar 7 beat 2.5  A7 → Dm7  late 62 ms"});
}

TEST_CASE("a chord judged against another beat than its own says which", "[report]") {
    const auto words = [](double beats_in) {
        return problems_of(late_by(62, beats_in), false).front();
    };
    CHECK(words(-0.5) == "bar 7  A7 → Dm7  late, 62 ms after 4&");
    CHECK(words(-1) == "bar 7  A7 → Dm7  late, 62 ms after 4");
    CHECK(words(0.5) == "bar 7  A7 → Dm7  late, 62 ms after 1&");
    CHECK(words(1) == "bar 7  A7 → Dm7  late, 62 ms after 2");
    CHECK(words(1.5) == "bar 7  A7 → Dm7  late, 62 ms after 2&");
}

TEST_CASE("an early chord just behind the off-beat before is a late push", "[report]") {
    Change change = late_by(45.2, -0.5);
    change.verdict = Verdict::early;
    CHECK(problems_of(change, false) ==
          Lines{"bar 7  A7 → Dm7  early: a late push, 45 ms after 4&"});
    change.beats_in = -1;
    CHECK(problems_of(change, false) ==
          Lines{"bar 7  A7 → Dm7  early: a late push, 45 ms after 4"});
    CHECK(problems_of(late_by(-45, -0.5), false) ==
          Lines{"bar 7  A7 → Dm7  early, 45 ms before 4&"});
}

TEST_CASE("a missed change and a first chord", "[report]") {
    Change change = a_change();
    change.verdict = Verdict::missed;
    change.lateness.reset();
    change.beats_in.reset();
    change.tones = Tones::none;
    CHECK(problems_of(change, false) == Lines{"bar 7  A7 → Dm7  missed"});
    change.from.reset();
    CHECK(problems_of(change, false) == Lines{"bar 7  Dm7  missed"});
}

TEST_CASE("a wrong tone is named by string and fret, with the fret that would do", "[report]") {
    auto wrong = c_sharp();
    CHECK(problems_of(with_wrong(wrong), false) ==
          Lines{"bar 7  Dm7  string 3 fret 6: C♯ is not in Dm7, fret 5 gives C"});
    wrong.stuck_finger = true;
    CHECK(
        problems_of(with_wrong(wrong), false) ==
        Lines{"bar 7  Dm7  string 3 fret 6: C♯ is not in Dm7, it stayed from A7, fret 5 gives C"});
}

TEST_CASE("without a channel per string a wrong tone is named by its name alone", "[report]") {
    auto wrong = c_sharp();
    wrong.string.reset();
    wrong.fret.reset();
    wrong.nearest_fret.reset();
    CHECK(problems_of(with_wrong(wrong), false) == Lines{"bar 7  Dm7  C♯ is not in Dm7"});
}

TEST_CASE("missing tones are named by degree and note", "[report]") {
    Change change = a_change();
    change.tones = Tones::incomplete;
    change.missing = {{7, -1}};
    CHECK(problems_of(change, false) == Lines{"bar 7  Dm7  without its ♭7 (C)"});
    change.missing = {{3, -1}, {7, -1}};
    CHECK(problems_of(change, false) == Lines{"bar 7  Dm7  without its ♭3 (F) and ♭7 (C)"});
}

TEST_CASE("a change both late and wrong has a line for each", "[report]") {
    Change change = late_by(62, 0);
    change.tones = Tones::wrong;
    change.wrong = {c_sharp()};
    CHECK(problems_of(change, false) ==
          Lines{"bar 7  A7 → Dm7  late 62 ms",
                "bar 7  Dm7  string 3 fret 6: C♯ is not in Dm7, fret 5 gives C"});
}

TEST_CASE("a seam and an interruption are remarked upon", "[report]") {
    Change change = late_by(62, 0);
    change.seam = true;
    CHECK(problems_of(change, false) == Lines{"bar 7  A7 → Dm7  late 62 ms  (the loop's seam)"});
    change.seam = false;
    change.uncertain = true;
    CHECK(problems_of(change, false) ==
          Lines{"bar 7  A7 → Dm7  late 62 ms  (uncertain: sound broke off)"});
}
