// Faults, totals and time in words: what a guitarist reads.

#include "report/rehearsed.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

using namespace compline;
using namespace compline::tests;
using assess::Change;
using assess::Tones;
using assess::Verdict;
using Lines = std::vector<std::string>;

namespace {

harmony::Chord chord(const std::string& symbol) {
    return *make_form(time::Meter(4), time::Bpm(120), {symbol}).spans.front().chord;
}

/// A7 to Dm7 at the start of bar 7, right and in time.
Change a_change() {
    Change change;
    change.pass = 2;
    change.bar = 7;
    change.from = chord("A7");
    change.to = chord("Dm7");
    change.verdict = Verdict::on_time;
    change.lateness = time::Seconds(0);
    change.beats_in = 0;
    change.tones = Tones::right;
    return change;
}

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

report::Report quiet_report(const std::vector<std::string>& bars) {
    return judged(make_form(time::Meter(4), time::Bpm(120), bars), {});
}

bool contains(const std::string& text, const std::string& part) {
    INFO(text);
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("what is right is not a problem", "[report]") {
    for (const auto verdict :
         {Verdict::on_time, Verdict::pushed, Verdict::held, Verdict::laid_out}) {
        Change change = a_change();
        change.verdict = verdict;
        CHECK(report::problems_of(change, false).empty());
    }
}

TEST_CASE("a late change is named by bar, move and milliseconds", "[report]") {
    CHECK(report::problems_of(late_by(62.4, 0), false) == Lines{"bar 7  A7 → Dm7  late 62 ms"});
    CHECK(report::problems_of(late_by(-80, 0), false) == Lines{"bar 7  A7 → Dm7  early 80 ms"});
}

TEST_CASE("the time through is named where there were several, the beat where it is not 1",
          "[report]") {
    Change change = late_by(62, 0);
    CHECK(report::problems_of(change, true) == Lines{"2nd time  bar 7  A7 → Dm7  late 62 ms"});
    change.pass = 11;
    change.beat = 3;
    CHECK(report::problems_of(change, true) ==
          Lines{"11th time  bar 7 beat 3  A7 → Dm7  late 62 ms"});
    change.pass = 23;
    change.beat = 2.5;
    CHECK(report::problems_of(change, true) ==
          Lines{"23rd time  bar 7 beat 2.5  A7 → Dm7  late 62 ms"});
}

TEST_CASE("a chord judged against another beat than its own says which", "[report]") {
    const auto words = [](double beats_in) {
        return report::problems_of(late_by(62, beats_in), false).front();
    };
    CHECK(words(-0.5) == "bar 7  A7 → Dm7  late 62 ms, on the off-beat before");
    CHECK(words(-1) == "bar 7  A7 → Dm7  late 62 ms, on the beat before");
    CHECK(words(0.5) == "bar 7  A7 → Dm7  late 62 ms, half a beat in");
    CHECK(words(1) == "bar 7  A7 → Dm7  late 62 ms, a beat in");
    CHECK(words(1.5) == "bar 7  A7 → Dm7  late 62 ms, 1.5 beats in");
}

TEST_CASE("a missed change and a first chord", "[report]") {
    Change change = a_change();
    change.verdict = Verdict::missed;
    change.lateness.reset();
    change.beats_in.reset();
    change.tones = Tones::none;
    CHECK(report::problems_of(change, false) == Lines{"bar 7  A7 → Dm7  missed"});
    change.from.reset();
    CHECK(report::problems_of(change, false) == Lines{"bar 7  Dm7  missed"});
}

TEST_CASE("a wrong tone is named by string and fret, with the fret that would do", "[report]") {
    auto wrong = c_sharp();
    CHECK(report::problems_of(with_wrong(wrong), false) ==
          Lines{"bar 7  Dm7  string 3 fret 6: C♯ is not in Dm7, fret 5 gives C"});
    wrong.stuck_finger = true;
    CHECK(
        report::problems_of(with_wrong(wrong), false) ==
        Lines{"bar 7  Dm7  string 3 fret 6: C♯ is not in Dm7, it stayed from A7, fret 5 gives C"});
}

TEST_CASE("without a channel per string a wrong tone is named by its name alone", "[report]") {
    auto wrong = c_sharp();
    wrong.string.reset();
    wrong.fret.reset();
    wrong.nearest_fret.reset();
    CHECK(report::problems_of(with_wrong(wrong), false) == Lines{"bar 7  Dm7  C♯ is not in Dm7"});
}

TEST_CASE("missing tones are named by degree and note", "[report]") {
    Change change = a_change();
    change.tones = Tones::incomplete;
    change.missing = {{7, -1}};
    CHECK(report::problems_of(change, false) == Lines{"bar 7  Dm7  without its ♭7 (C)"});
    change.missing = {{3, -1}, {7, -1}};
    CHECK(report::problems_of(change, false) == Lines{"bar 7  Dm7  without its ♭3 (F) and ♭7 (C)"});
}

TEST_CASE("a change both late and wrong has a line for each", "[report]") {
    Change change = late_by(62, 0);
    change.tones = Tones::wrong;
    change.wrong = {c_sharp()};
    CHECK(report::problems_of(change, false) ==
          Lines{"bar 7  A7 → Dm7  late 62 ms",
                "bar 7  Dm7  string 3 fret 6: C♯ is not in Dm7, fret 5 gives C"});
}

TEST_CASE("a seam and an interruption are remarked upon", "[report]") {
    Change change = late_by(62, 0);
    change.seam = true;
    CHECK(report::problems_of(change, false) ==
          Lines{"bar 7  A7 → Dm7  late 62 ms  (the loop's seam)"});
    change.seam = false;
    change.uncertain = true;
    CHECK(report::problems_of(change, false) ==
          Lines{"bar 7  A7 → Dm7  late 62 ms  (uncertain: sound broke off)"});
}

TEST_CASE("a silent take says that no chords were heard", "[report]") {
    const auto text = report::to_text(quiet_report({"F7", "Bb7"}));
    CHECK(contains(text, "Changes  2: 2 laid out; tones right in 0\n"));
    CHECK(contains(text, "Time     no chords were heard\n"));
    CHECK(contains(text, "Nothing to mend.\n"));
}

TEST_CASE("a passage without a chord has no changes to count", "[report]") {
    CHECK(contains(report::to_text(quiet_report({"N.C."})), "Changes  none were due\n"));
}

TEST_CASE("a passage of one bar is named as one bar", "[report]") {
    CHECK(contains(report::to_text(quiet_report({"F7"})), "\nbar 1, once through;"));
    CHECK(contains(report::to_text(quiet_report({"F7", "F7"})), "\nbars 1-2, once through;"));
}

TEST_CASE("what the listener left out is counted in words", "[report]") {
    auto report = quiet_report({"F7"});
    report.cleaned = {1, 2, 0};
    const auto text = report::to_text(report);
    CHECK(contains(text, "Left out 1 ghost note, 2 double triggers of the MIDI pickup\n"));
    CHECK_FALSE(contains(text, "Sound "));
}

TEST_CASE("a live report says how the machine bore up, well or not", "[report]") {
    auto report = quiet_report({"F7"});
    practice::Machine machine{"JACK: system", "ALSA: six strings", 48000, 256, 5.3, 0.04, 0, 0, 0};
    report.machine = machine;
    CHECK(contains(report::to_text(report),
                   "Sound    JACK: system, 48000 Hz, 256 frames (every 5.3 ms)\n"
                   "         never interrupted; the longest callback took 0.8 % of that\n"
                   "MIDI     ALSA: six strings\n"));
    machine.xruns = 1;
    machine.late_strokes = 2;
    machine.dropped_events = 3;
    machine.garbled_bytes = 4;
    machine.input = "evil \x1B[31m";
    report.machine = machine;
    const auto text = report::to_text(report);
    CHECK(contains(text, " interrupted 1 time; "));
    CHECK(contains(text, "the band left out 2 strokes: they came too late to be played\n"));
    CHECK(contains(text, "lost 3 messages: there was no room for them\n"));
    CHECK(contains(text, "4 bytes made no message: look after cable and interface\n"));
    CHECK_FALSE(contains(text, "\x1B"));
    machine = {};  // of a damaged take
    report.machine = machine;
    CHECK_FALSE(contains(report::to_text(report), "Sound "));
}

TEST_CASE("the command that loops the weakest bars can be pasted, whatever the file's name",
          "[report]") {
    auto report = clumsy_report();
    const auto command_for = [&](const std::string& file) {
        report.chart_file = file;
        const auto text = report::to_text(report);
        const auto at = text.find("compline practice ");
        return text.substr(at, text.find(" --bars") - at);
    };
    CHECK(command_for("charts/blues.yaml") == "compline practice charts/blues.yaml");
    CHECK(command_for("my blues.yaml") == "compline practice 'my blues.yaml'");
    CHECK(command_for("it's.yaml") == "compline practice 'it'\\''s.yaml'");
    CHECK(command_for("-x.yaml") == "compline practice '-x.yaml'");
    CHECK(command_for("Über.yaml") == "compline practice Über.yaml");
    // Nothing that could steer the terminal is printed.
    CHECK(command_for("red\x1B[31m.yaml") == "compline practice CHART");
    CHECK(command_for("red\xC2\x9B"
                      "31m.yaml") == "compline practice CHART");
}
