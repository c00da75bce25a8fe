// What is to be mended, said once for what happens each time; what may have been meant; and what
// cannot be said of a take in which little was heard.

#include "report/hand_made.hpp"
#include "support/catch.hpp"

using namespace compline;
using namespace compline::tests;
using assess::Change;
using assess::Verdict;

namespace {

/// What stands under the totals, without the empty line.
std::string problems(const practice::Report& report) {
    const auto text = report::to_text(report);
    const auto at = text.find("\n\n", text.find("Changes "));
    return at == std::string::npos ? "" : text.substr(at + 2);
}

/// The sentence that the report begins with, in one line.
std::string first(const practice::Report& report) {
    const auto text = report::to_text(report);
    auto sentence = text.substr(0, text.find("\n\n"));
    std::replace(sentence.begin(), sentence.end(), '\n', ' ');
    return sentence;
}

std::string first(const std::vector<Change>& changes) { return first(report_of(changes)); }

std::string problems(const std::vector<Change>& changes, int times_through = 1, int beats = 4) {
    return problems(report_of(changes, times_through, time::Meter(beats)));
}

Change waits(double beats_in = 1) {
    auto change = placed(beats_in, 12);
    change.wait = true;
    return change;
}

Change left_out() {
    auto change = not_struck(Verdict::laid_out);
    change.left_out = true;
    return change;
}

Change astray() {
    auto change = a_change();
    change.verdict = Verdict::astray;
    change.meant = chord("Gm7");
    return change;
}

Change uncertain(Change change) {
    change.uncertain = true;
    return change;
}

std::vector<Change> many(int count, const Change& change) {
    return std::vector<Change>(static_cast<std::size_t>(count), change);
}

std::vector<Change> operator+(std::vector<Change> a, const std::vector<Change>& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

std::vector<Change> in_time(int count) { return many(count, at(a_change(), 1, 1)); }

}  // namespace

TEST_CASE("a place that is waited for is named once, with how often", "[report]") {
    CHECK(problems(in_time(9) + many(1, at(waits(), 1, 6)) + many(1, at(a_change(), 2, 6)) +
                       many(1, at(waits(), 3, 6)) + many(1, at(a_change(), 3, 7)),
                   3) ==
          "  bar 6  A7 → Dm7  in on 2, 2 of 3 times; its neighbours where they are due\n");
    CHECK(problems(in_time(9) + many(1, at(waits(0.5), 1, 6, 3))) ==
          "  bar 6 beat 3  A7 → Dm7  in on 3&; its neighbours where they are due\n");
}

TEST_CASE("wrong tones on a chord that was waited for are named besides", "[report]") {
    auto bare = waits();
    bare.tones = assess::Tones::incomplete;
    bare.missing = {{7, -1}};
    CHECK(problems(in_time(9) + many(1, at(waits(), 1, 6)) + many(1, at(bare, 2, 6)), 2) ==
          "Places, over all times through\n"
          "  bar 6  A7 → Dm7  in on 2, 2 of 2 times; its neighbours where they are due\n"
          "Besides\n"
          "  2nd time  bar 6  Dm7  without its ♭7 (C)\n");
}

TEST_CASE("a place that is left out is named once, with how often", "[report]") {
    CHECK(problems(in_time(9) + many(1, at(left_out(), 1, 6)) + many(1, at(left_out(), 2, 6)) +
                       many(1, at(a_change(), 3, 6)),
                   3) == "  bar 6  A7 → Dm7  left out 2 of 3 times\n");
    CHECK(problems(in_time(9) + many(1, at(left_out(), 1, 6))) == "  bar 6  A7 → Dm7  left out\n");
}

TEST_CASE("what is uncertain counts for no habit, and is shown with that remark", "[report]") {
    CHECK(problems(in_time(9) + many(1, at(left_out(), 1, 6)) +
                       many(1, uncertain(at(not_struck(Verdict::missed), 2, 6))),
                   2) ==
          "  bar 6  A7 → Dm7  left out\n"
          "  2nd time  bar 6  A7 → Dm7  missed  (uncertain: sound broke off)\n");
}

TEST_CASE("four changes astray in a row are one line, and fewer a line each", "[report]") {
    auto report = report_of(in_time(9) + many(1, at(astray(), 1, 17)) +
                            many(1, at(astray(), 1, 18)) + many(1, at(astray(), 1, 19)) +
                            many(1, at(astray(), 1, 21)) + many(1, at(astray(), 1, 29)));
    report.assessment.astray = {{1, 17, 21, 1, 4}, {1, 29, 29, -1, 1}};
    CHECK(problems(report) ==
          "Elsewhere in the form\n"
          "  bars 17 to 21  a bar ahead of the chart\n"
          "Besides\n"
          "  bar 29  A7 → Dm7  astray: meant for Gm7\n");
}

TEST_CASE("what nobody could hear is not said to be missed", "[report]") {
    auto unheard = uncertain(at(not_struck(Verdict::missed), 2, 6));
    unheard.unheard = true;
    auto late = uncertain(at(a_change(), 2, 7));
    late.verdict = Verdict::late;
    late.lateness = time::from_milliseconds(62);
    late.unheard = true;
    const auto said = problems(many(1, unheard) + many(1, late), 2);
    CHECK(said ==
          "  2nd time  bar 6  A7 → Dm7  not heard  (uncertain: the cable was out)\n"
          "  2nd time  bar 7  A7 → Dm7  late 62 ms  (uncertain: the cable was out)\n");
}

TEST_CASE("an uncertain change in a stretch astray keeps its line and its remark", "[report]") {
    auto report = report_of(in_time(9) + many(4, at(astray(), 1, 17)) +
                            many(1, uncertain(at(astray(), 1, 18))));
    report.assessment.astray = {{1, 17, 18, 1, 4}};
    CHECK(problems(report) ==
          "Elsewhere in the form\n"
          "  bars 17 to 18  a bar ahead of the chart\n"
          "Besides\n"
          "  bar 18  A7 → Dm7  astray: meant for Gm7  (uncertain: sound broke off)\n");
}

TEST_CASE("how far astray is said in bars or beats, and which time through", "[report]") {
    const auto said = [&](double bars, int beats = 4) {
        auto report = report_of(in_time(9) + many(4, at(astray(), 2, 17)), 2, time::Meter(beats));
        report.assessment.astray = {{2, 17, 17, bars, 4}};
        return problems(report);
    };
    CHECK(said(1) == "  2nd time  bar 17  a bar ahead of the chart\n");
    CHECK(said(-2) == "  2nd time  bar 17  2 bars behind the chart\n");
    CHECK(said(0.5) == "  2nd time  bar 17  2 beats ahead of the chart\n");
    CHECK(said(-0.25) == "  2nd time  bar 17  a beat behind the chart\n");
    CHECK(said(2.0 / 3, 3) == "  2nd time  bar 17  2 beats ahead of the chart\n");
}

TEST_CASE("a stretch astray may go round the form", "[report]") {
    auto report = report_of(in_time(9) + many(2, at(astray(), 1, 12)) +
                                many(2, at(astray(), 2, 2)) + many(1, at(astray(), 2, 11)),
                            2);
    report.assessment.astray = {{1, 11, 2, 1, 4}};
    CHECK(problems(report) ==
          "Elsewhere in the form\n"
          "  1st time  bars 11 to 2  a bar ahead of the chart\n"
          "Besides\n"
          "  2nd time  bar 11  A7 → Dm7  astray: meant for Gm7\n");
}

TEST_CASE("where a third of the changes came equally late, that is said first, and how to mean it",
          "[report]") {
    // Chords on 1 and 3, in a beat later, 8 and 16 ms behind.
    const auto late = many(5, at(placed(1, 8), 1, 1)) + many(5, at(placed(1, 16), 1, 1, 3));
    CHECK(problems(late + in_time(20)) ==
          "10 of 30 changes came in a beat after their own, 12 ms behind that beat.\n"
          "If you mean to: --rhythm \"2 4\"\n");
    // Whether there is something to mend, the player knows.
    CHECK(first(late + in_time(20)) == "All 30 changes in time and with the right tones.");
    CHECK(first(late + in_time(21)) ==
          "All 31 changes in time and with the right tones: nothing to mend.");
    CHECK(problems(late + in_time(21)).empty());
    // What was not struck is no part of it.
    CHECK(problems(late + in_time(20) + many(40, not_struck(Verdict::held))).substr(0, 29) ==
          "10 of the 30 changes struck c");
    CHECK(problems(late + in_time(20) + many(40, uncertain(a_change()))).substr(0, 20) ==
          "10 of 30 changes cam");
    CHECK(problems(late + in_time(21) + many(3, uncertain(placed(1)))).empty());
    // And what is to be mended follows.
    const auto both = problems(late + in_time(19) + many(1, at(not_struck(Verdict::missed), 1, 6)));
    CHECK(both.find("\"2 4\"\n  bar 6  A7 → Dm7  missed\n") != std::string::npos);
}

TEST_CASE("off-beats, other distances and bar lines are named as rhythms are", "[report]") {
    CHECK(problems(many(2, at(placed(0.5, -7), 1, 1)) + many(2, at(placed(0.5, -7), 1, 1, 3))) ==
          "4 of 4 changes came in half a beat after their own, 7 ms ahead of that off-beat.\n"
          "If you mean to: --rhythm \"1& 3&\"\n");
    CHECK(problems(many(2, at(placed(1.5, 0), 1, 1, 3)), 1, 3) ==
          "2 of 2 changes came in a beat and a half after their own, on that off-beat.\n"
          "If you mean to: --rhythm \"1&\"\n");
    CHECK(problems(many(3, at(placed(2), 1, 1)) + many(2, at(placed(1), 1, 1))).substr(0, 50) ==
          "3 of 5 changes came in 2 beats after their own, on");
    // One is no habit.
    CHECK(problems(many(1, placed(1)) + in_time(2)).empty());
}

TEST_CASE("nothing to mend is said only of a take in which half of the changes were struck",
          "[report]") {
    CHECK(first(in_time(16) + many(16, not_struck(Verdict::held))) ==
          "All 32 changes in time and with the right tones: nothing to mend.");
    CHECK(first(in_time(28) + many(4, not_struck(Verdict::laid_out))) ==
          "All the 28 changes that you played in time and with the right tones: nothing to mend.");
    CHECK(first(in_time(16) + many(16, not_struck(Verdict::laid_out))) ==
          "All the 16 changes that you played in time and with the right tones: nothing to mend.");
    CHECK(first(in_time(15) + many(17, not_struck(Verdict::laid_out))) ==
          "Only 15 of 32 changes were struck: too little to say what to mend.");
    CHECK(first(in_time(1) + many(31, not_struck(Verdict::held))) ==
          "Only 1 of 32 changes was struck: too little to say what to mend.");
    CHECK(first(in_time(15) + many(1, uncertain(a_change())) +
                many(16, not_struck(Verdict::laid_out))) ==
          "Only 15 of 31 changes were struck: too little to say what to mend.");
    CHECK(first(many(2, uncertain(a_change()))) == "No change can be judged for certain.");
    CHECK(first(std::vector<Change>{}) == "No changes were due.");
}

TEST_CASE("a report begins with time, tones and what costs most", "[report]") {
    auto late = at(a_change(), 1, 6);
    late.verdict = Verdict::late;
    late.lateness = time::from_milliseconds(62);
    auto bare = at(a_change(), 1, 9);
    bare.tones = assess::Tones::incomplete;
    bare.missing = {{7, -1}};
    CHECK(first(in_time(30) + many(1, late)) ==
          "30 of 31 changes in time, all with the right tones: work on bar 6.");
    CHECK(first(in_time(30) + many(1, bare)) ==
          "All 31 changes in time, 30 with the right tones: work on bar 9.");
    auto report = report_of(in_time(30) + many(1, late) + many(1, bare));
    report.assessment.weakest = assess::Weakest{6, 9, 0.5, {6, 9}};
    CHECK(first(report) ==
          "31 of 32 changes in time, 31 with the right tones: work on bars 6 to 9.");
    report.assessment.astray = {{1, 17, 21, 1, 4}};
    report.assessment.changes.push_back(at(astray(), 1, 17));
    CHECK(first(report) ==
          "31 of 33 changes in time, 31 with the right tones: work on where you are in bars 17 to "
          "21.");
    report.hints = {{practice::HintKind::offset, "It fits a bar later: --offset 1818",
                     "--offset 1818", 30, 32}};
    CHECK(first(report) ==
          "31 of 33 changes in time, 31 with the right tones. It fits a bar later:     --offset "
          "1818");
}

TEST_CASE("where nothing was struck in its place, what the take fits is said all the same",
          "[report]") {
    auto report = report_of(many(32, not_struck(Verdict::missed)));
    report.hints = {{practice::HintKind::offset, "It fits two bars later: --offset 3636",
                     "--offset 3636", 30, 32}};
    CHECK(first(report) ==
          "None of the 32 changes was struck. It fits two bars later:     --offset 3636");
}

TEST_CASE("a take without a landing asks after the MIDI pickup, or after the chart", "[report]") {
    auto report = report_of(many(32, not_struck(Verdict::laid_out)));
    CHECK(first(report) ==
          "None of the 32 changes was struck, though you played. Was it this chart, and these "
          "bars?");
    report.assessment.time.all.count = 0;
    CHECK(first(report) ==
          "None of the 32 changes was struck. Is the MIDI pickup connected, and on the right "
          "channel?");
    report.assessment.strums.resize(1);
    CHECK(first(report).find("though you played") != std::string::npos);
    auto one = report_of(many(1, not_struck(Verdict::laid_out)));
    one.assessment.time.all.count = 0;
    CHECK(first(one).substr(0, 32) == "The one change was not struck. I");
}

TEST_CASE("a silent take lists no missed changes, one of other chords does", "[report]") {
    auto report = report_of(many(2, at(not_struck(Verdict::missed), 1, 7)));
    CHECK(problems(report) == "  bar 7  A7 → Dm7  missed 2 of 2 times\n");
    report.assessment.time.all.count = 0;
    CHECK(problems(report).empty());
}

TEST_CASE("what goes wrong twice at a place is one line, the costliest first; the rest follows",
          "[report]") {
    const auto late = [](int time, int bar, double ms) {
        auto change = at(a_change(), time, bar);
        change.verdict = Verdict::late;
        change.lateness = time::from_milliseconds(ms);
        return change;
    };
    auto bare = at(a_change(), 1, 9);
    bare.tones = assess::Tones::incomplete;
    bare.missing = {{7, -1}};
    const auto changes =
        std::vector<Change>{late(1, 5, 60),  late(2, 5, 80), at(a_change(), 3, 5), late(1, 6, 90),
                            late(2, 6, 110), bare,           at(bare, 2, 9),       late(3, 12, 70)};
    const auto report = report_of(in_time(9) + changes, 3);
    CHECK(problems(report) ==
          "Places, over all times through\n"
          "  bar 6  A7 → Dm7  late 2 of 2 times, 100 ms on average\n"
          "  bar 5  A7 → Dm7  late 2 of 3 times, 70 ms on average\n"
          "  bar 9  Dm7  without its ♭7 (C), 2 of 2 times\n"
          "Besides\n"
          "  3rd time  bar 12  A7 → Dm7  late 70 ms\n");
    const auto all = report::to_text(report, report::Listing::all);
    CHECK(all.find("\nAll, in order\n  1st time  bar 5  A7 → Dm7  late 60 ms\n"
                   "  2nd time  bar 5  A7 → Dm7  late 80 ms\n") != std::string::npos);
    CHECK(all.find("  2nd time  bar 9  Dm7  without its ♭7 (C)\n") != std::string::npos);
}

TEST_CASE("a habit is said first, and what it explains not again", "[report]") {
    auto late = at(a_change(), 1, 6);
    late.verdict = Verdict::late;
    late.lateness = time::from_milliseconds(62);
    auto both = at(late, 2, 6);
    both.tones = assess::Tones::incomplete;
    both.missing = {{7, -1}};
    auto report = report_of(in_time(9) + std::vector<Change>{late, both, at(late, 3, 6)}, 3);
    assess::Habit habit;
    habit.kind = assess::HabitKind::place;
    habit.fault = assess::HabitFault::late;
    habit.cases = 3;
    habit.of = 3;
    habit.mean_ms = 62;
    habit.cost = 0.9;
    habit.changes = {9, 10, 11};
    habit.bar = 6;
    habit.from = chord("A7");
    habit.to = chord("Dm7");
    report.assessment.habits = {habit};
    CHECK(problems(report) ==
          "Habits\n"
          "  bar 6  A7 → Dm7  late 3 of 3 times, 62 ms on average\n"
          "Besides\n"
          "  2nd time  bar 6  Dm7  without its ♭7 (C)\n");
    CHECK(first(report) == "9 of 12 changes in time, 11 with the right tones: work on bar 6.");
}

TEST_CASE("other chords struck after the landing are named, and then something is to mend",
          "[report]") {
    auto spoilt = at(a_change(), 1, 3);
    spoilt.inside = 1;
    spoilt.outside = 2;
    CHECK(problems(in_time(9) + many(1, spoilt) + many(1, at(spoilt, 2, 7))) ==
          "4 of 6 strums after a landing were another chord, in bars 3, 7\n");
    // A slip here and there has its line already.
    CHECK(problems(in_time(9) + many(1, spoilt)).empty());
    auto clean = at(a_change(), 1, 4);
    clean.inside = 40;
    CHECK(problems(many(2, spoilt) + many(2, clean)).empty());
}
