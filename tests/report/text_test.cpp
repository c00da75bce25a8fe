// Totals, time, place and machine in words: what a guitarist reads of a whole take.

#include "report/hand_made.hpp"
#include "support/catch.hpp"

using namespace compline;
using namespace compline::tests;

namespace {

practice::Report quiet_report(const std::vector<std::string>& bars) {
    return judged(through(make_form(time::Meter(4), time::Bpm(120), bars)), {});
}

bool contains(const std::string& text, const std::string& part) {
    INFO(text);
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a silent take says that no chords were heard", "[report]") {
    const auto text = report::to_text(quiet_report({"F7", "Bb7"}));
    CHECK(contains(text, "Changes  2: 2 laid out; tones right in 0\n"));
    CHECK(contains(text, "Time     no chords were heard\n"));
    CHECK_FALSE(contains(text, "Nothing to mend"));
    INFO(text);
    CHECK(text.starts_with(
        "None of the 2 changes was struck. Is the MIDI pickup connected, and on the right\n"
        "channel?\n\n"));
}

TEST_CASE("each verdict is counted, and what is uncertain apart", "[report]") {
    assess::Totals totals;
    totals.changes = 9;
    totals.verdicts = {2, 0, 3, 0, 0, 0, 0, 0, 4};
    totals.right_tones = 5;
    auto report = quiet_report({"F7"});
    report.assessment.totals = totals;
    CHECK(contains(report::to_text(report),
                   "Changes  9: 2 on time, 3 placed, 4 astray; tones right in 5\n"));
    report.assessment.totals.uncertain = 2;
    CHECK(contains(report::to_text(report), "4 astray; tones right in 5; 2 uncertain\n"));
    report.assessment.totals.verdicts = {21, 22, 23, 24, 25, 26, 27, 28, 29};
    CHECK(contains(
        report::to_text(report),
        "Changes  9: 21 on time, 22 pushed, 23 placed, 26 held, 27 laid out, 24 early, 25\n"
        "         late, 28 missed, 29 astray; tones right in 5; 2 uncertain\n"));
    report.assessment.totals = {};
    report.assessment.totals.uncertain = 2;
    CHECK(contains(report::to_text(report), "Changes  none for certain; 2 uncertain\n"));
}

TEST_CASE("a place of one's own beside the beat is said once, from 5 ms on", "[report]") {
    auto report = quiet_report({"F7"});
    const auto said = [&](double ms, bool told_apart) {
        report.assessment.own_place.on_beats = time::from_milliseconds(ms);
        report.assessment.own_place.told_apart = told_apart;
        const auto text = report::to_text(report);
        const auto at = text.find("Place ");
        return at == std::string::npos ? "" : text.substr(at, text.find_last_not_of('\n') + 1 - at);
    };
    CHECK(said(26.3, true) == "Place    you, or your MIDI pickup, sit 26 ms behind the beat");
    CHECK(said(-8, true) == "Place    you, or your MIDI pickup, sit 8 ms ahead of the beat");
    CHECK(said(18, false) ==
          "Place    you, or your MIDI pickup, sit 18 ms behind the beat, unless your hand\n"
          "         is slow at changes");
    CHECK(said(-8, false) == "Place    you, or your MIDI pickup, sit 8 ms ahead of the beat");
    CHECK(said(4.6, true) == "Place    you, or your MIDI pickup, sit 5 ms behind the beat");
    CHECK(said(4.4, true).empty());
    CHECK(said(-4.4, true).empty());
    report.assessment.own_place = {};
    report.assessment.own_place.uneven = time::from_milliseconds(31);
    CHECK(contains(report::to_text(report),
                   "Place    31 ms behind the beat, unevenly: the beat itself is judged by\n"));
    report.assessment.own_place = {};
    CHECK_FALSE(contains(report::to_text(report), "Place "));
}

TEST_CASE("who asks to be judged by the beat itself reads so", "[report]") {
    auto report = quiet_report({"F7"});
    report.assessment.tolerance = time::from_milliseconds(50);
    CHECK(contains(report::to_text(report), "in time within 50 ms\n"));
    report.settings.against = assess::Against::beat;
    CHECK(contains(report::to_text(report), "in time within 50 ms of the beat itself\n"));
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
    machine.unreadable_bytes = 4;
    machine.input = "evil \x1B[31m";
    report.machine = machine;
    const auto text = report::to_text(report);
    CHECK(contains(text, " interrupted 1 time; "));
    CHECK(contains(text, "the band left out 2 strokes: they came too late to be played\n"));
    CHECK(contains(text, "lost 3 messages: there was no room for them\n"));
    CHECK(contains(text, "4 bytes made no message: look after cable and interface\n"));
    CHECK_FALSE(contains(text, "\x1B"));
    CHECK_FALSE(contains(text, "cable was out"));
    report.heard.unheard = {{time::Seconds(1), time::Seconds(3.2)}};
    CHECK(contains(
        report::to_text(report),
        "\n         its cable was out once, 3 s in all; what you played then is not known\n"));
    report.heard.unheard.push_back({time::Seconds(100), time::Seconds(1100)});
    CHECK(contains(report::to_text(report), "its cable was out 2 times, 1003 s in all; "));
    machine = {};  // of a damaged take
    report.machine = machine;
    CHECK_FALSE(contains(report::to_text(report), "Sound "));
}

TEST_CASE("a report says which round trip was used, and whose delays", "[report]") {
    auto report = quiet_report({"F7"});
    practice::Machine machine{"JACK: system", "ALSA: six strings", 48000, 256, 5.3, 0.04, 0, 0, 0};
    report.machine = machine;
    CHECK_FALSE(contains(report::to_text(report), "round trip"));
    CHECK_FALSE(contains(report::to_text(report), "Delays"));
    report.machine->round_trip_ms = 11.354;
    CHECK(contains(report::to_text(report),
                   "took 0.8 % of that\n"
                   "         11.4 ms round trip, measured, in place of the system's 5.3\n"
                   "MIDI "));
    using practice::RoundTripNow;
    practice::DelaysTaken delays{{time::from_milliseconds(9), 1.4, {time::from_milliseconds(-2.5)}},
                                 RoundTripNow::taken,
                                 time::from_milliseconds(-6.04)};
    report.delays = delays;
    CHECK(contains(report::to_text(report),
                   "Delays   by your settings: 9 ms and 1.4 cycles of the wave, strings 1=-2.5\n"
                   "         by its round trip all is 6.0 ms earlier\n"));
    delays = {{time::Seconds(0), 1}, RoundTripNow::taken, time::from_milliseconds(2)};
    report.delays = delays;
    CHECK(contains(report::to_text(report),
                   "Delays   by your settings: 0 ms and 1 cycle of the wave\n"
                   "         by its round trip all is 2.0 ms later\n"));
    for (const auto& [what, words] :
         {std::pair{RoundTripNow::not_known, "no round trip is kept: the take's own stays"},
          std::pair{RoundTripNow::not_said_by_take,
                    "the take does not say what it was played on: no round trip is taken"},
          std::pair{RoundTripNow::measured_elsewhere,
                    "your round trip was measured on something else: the take's stays"}}) {
        report.delays->round_trip = what;
        CHECK(contains(report::to_text(report), words));
    }
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
