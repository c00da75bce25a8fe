// What is asked of a take that is to be judged, and what it says itself.

#include "support/catch.hpp"

#include <compline/practice/scoring.hpp>
#include <compline/text/bad_input.hpp>

#include <string>
#include <vector>

using namespace compline;
using namespace compline::practice;
using time::Seconds;

namespace {

/// Four bars of two seconds each.
constexpr const char* chart_text =
    "title: Four Steps\n"
    "key: F\n"
    "tempo: 120\n"
    "sections:\n"
    "  A: |\n"
    "    F6 | D7 | Gm7 | C7\n";

chart::Form form() { return chart::unroll(chart::read_chart(chart_text, "four-steps.yaml")); }

/// A take of so many times through that was listened to until then; a chord on the first beat.
Take a_take(int times_through, Seconds end) {
    Take take;
    take.info = info_of({form(), roadmap::Asked::of({1, 4}, times_through)}, chart_text);
    take.info->ended = true;
    take.end = end;
    for (const int note : {53, 57, 62}) {
        take.messages.push_back({Seconds(0.01), midi::note_on(1, note, 80)});
    }
    for (const int note : {53, 57, 62}) {
        take.messages.push_back({Seconds(0.9), midi::note_off(1, note)});
    }
    return take;
}

std::string refusal(const Take& take, const ScoreRequest& request = {}) {
    try {
        (void)hear_and_judge(form(), take, request);
    } catch (const text::BadInput& error) {
        return error.what();
    }
    return "";
}

int times_through(const Take& take, const ScoreRequest& request = {}) {
    return hear_and_judge(form(), take, request).map.times_through().value();
}

bool near(Seconds a, Seconds b) { return time::abs(a - b) < Seconds(1e-9); }

}  // namespace

TEST_CASE("a take whose last time through could not have begun is damaged") {
    CHECK(refusal(a_take(2, Seconds(5.9))) ==
          "the take says that it was played 2 times through; it lasts 6 s, and the last of them "
          "would begin after 6 s: it is damaged");
    // Times through are counted a moment before the beat: a bar is more than that.
    CHECK(refusal(a_take(2, Seconds(6.1))).empty());
    CHECK(refusal(a_take(1, Seconds(0.5))).empty());
}

TEST_CASE("a take that was cut short is judged as far as it goes, whatever was meant") {
    auto take = a_take(100, Seconds(9));
    take.info->ended = false;
    CHECK(times_through(take) == 2);
}

TEST_CASE("a take that ended is judged for all the times through that it had") {
    CHECK(times_through(a_take(3, Seconds(23))) == 3);
    CHECK(times_through(a_take(3, Seconds(16.5))) == 3);
}

TEST_CASE("bars that were not all of what was played are a part of it, however the take ended") {
    auto take = a_take(3, Seconds(15.9));
    take.info->decided = {{Seconds(15.9), {5, roadmap::Stopped{}}}};
    CHECK(times_through(take) == 1);
    ScoreRequest request;
    request.passage = chart::Passage{1, 2};
    const auto part = hear_and_judge(form(), take, request);
    CHECK(part.map.times_through() == 1);
    CHECK(part.map.way().reach() == chart::Passage{1, 4});
    CHECK(part.settings.part == request.passage);
    // What is decided on the way counts too: the first two bars were looped, then came the others.
    take.info->asked.way = chart::Way::of({1, 2}, 1);
    take.info->decided = {{Seconds(1), {3, roadmap::NewWay{chart::Way::of({1, 4}, 1)}}}};
    const auto later = hear_and_judge(form(), take, request);
    CHECK(later.map.times_through() == 2);
    CHECK(later.settings.part == request.passage);
}

TEST_CASE("bars of a file from elsewhere, or beyond what was played, are played over and over") {
    auto take = a_take(3, Seconds(15.9));
    ScoreRequest request;
    request.passage = chart::Passage{1, 2};
    take.info->asked.way = chart::Way::of({3, 4}, 3);
    const auto looped = hear_and_judge(form(), take, request);
    CHECK(looped.map.times_through() == 4);
    CHECK(looped.map.way().reach() == chart::Passage{1, 2});
    CHECK(!looped.settings.part);
    take.info.reset();
    CHECK(hear_and_judge(form(), take, request).map.way().reach() == chart::Passage{1, 2});
    request.whole_form = true;
    CHECK(hear_and_judge(form(), take, request).map.way().reach() == chart::Passage{1, 4});
}

TEST_CASE("a tempo that is asked for holds from beginning to end") {
    auto take = a_take(2, Seconds(15.9));
    take.info->decided = {{Seconds(0), {3, roadmap::NewTempo{time::Bpm(90)}}}};
    ScoreRequest request;
    CHECK(hear_and_judge(form(), take, request).map.bar(4).tempo == time::Bpm(90));
    request.tempo = time::Bpm(126);
    const auto report = hear_and_judge(form(), take, request);
    CHECK(report.map.bar(1).tempo == time::Bpm(126));
    CHECK(report.map.bar(4).tempo == time::Bpm(126));
}

TEST_CASE("with an offset notes and interruptions are counted from another bar 1") {
    auto take = a_take(1, Seconds(8));
    take.interruptions = {Seconds(1)};
    ScoreRequest request;
    request.offset = Seconds(0.25);
    const auto report = hear_and_judge(form(), take, request);
    CHECK(report.heard.interruptions == std::vector{Seconds(0.75)});
    CHECK(report.heard.end == Seconds(7.75));
}

TEST_CASE("what a pedal sends among the guitar's notes is heard as no music") {
    auto take = a_take(1, Seconds(8));
    const auto without = hear_and_judge(form(), take, {});
    take.messages.push_back({Seconds(1), midi::note_on(9, 36, 100)});
    take.messages.push_back({Seconds(1.1), midi::control_change(1, 123, 127)});  // all notes off
    take.messages.push_back({Seconds(2), midi::note_off(9, 36)});
    CHECK(hear_and_judge(form(), take, {}).heard.notes.size() == 4);
    take.info->pedal = {"note 36=pause, 123=stop", false};
    const auto with = hear_and_judge(form(), take, {});
    REQUIRE(with.heard.notes.size() == without.heard.notes.size());
    CHECK(with.assessment.totals.count(assess::Verdict::on_time) == 1);
    // A pedal with a port of its own says nothing of these.
    take.info->pedal.own_port = true;
    CHECK(hear_and_judge(form(), take, {}).heard.notes.size() == 4);
}

TEST_CASE("the guitar is unheard from where its cable was out to where it was in, or the end") {
    auto take = a_take(1, Seconds(8));
    take.cable = {{Seconds(1), true}, {Seconds(2), false}, {Seconds(6), true}};
    ScoreRequest request;
    request.offset = Seconds(0.5);
    const auto report = hear_and_judge(form(), take, request);
    CHECK(report.heard.unheard ==
          std::vector<listen::Unheard>{{Seconds(0.5), Seconds(1.5)}, {Seconds(5.5), Seconds(7.5)}});
}

TEST_CASE("nobody plays for longer than a day") {
    CHECK(refusal(a_take(1, Seconds(24 * 3600.0))).empty());
    CHECK(refusal(a_take(1, Seconds(24 * 3600.0 + 1800))) ==
          "the take lasts 24 hours: more than a day is not judged");
}

TEST_CASE("the calibration that a take carries is taken off every onset") {
    auto take = a_take(1, Seconds(8));
    take.info->delay = {Seconds(0.004), 0};
    const auto report = hear_and_judge(form(), take, {});
    REQUIRE(report.heard.notes.size() == 3);
    for (const auto& note : report.heard.notes) CHECK(near(note.on, Seconds(0.006)));
}

TEST_CASE("a file from elsewhere goes as far as its last note, however long it is silent then") {
    auto take = a_take(1, Seconds(40));
    take.info.reset();
    CHECK(times_through(take) == 1);
    take.messages.push_back({Seconds(13), midi::note_on(1, 60, 80)});
    CHECK(times_through(take) == 2);
}

TEST_CASE("no delay of a MIDI pickup is taken off sound; the round trip of now is") {
    auto take = a_take(1, Seconds(8));
    take.info->heard = HeardBy::sound;
    take.info->delay = {time::from_milliseconds(30)};
    Machine machine;
    machine.latency_ms = 4;
    take.info->machine = machine;
    ScoreRequest request;
    request.delays = DelaysNow{{time::from_milliseconds(2), 1}, read_round_trip("11")};
    const auto report = hear_and_judge(form(), take, request);
    CHECK(report.heard.notes.front().on.milliseconds() == Approx(10 - 30 - 7));
}

TEST_CASE("a take can be judged by the delays of now, in place of those it was played with") {
    auto take = a_take(1, Seconds(8));
    take.info->delay = {time::from_milliseconds(30), 1.5};
    take.info->pickup = "cycles=3 poly";
    const auto onset = [&](const ScoreRequest& request) {
        return hear_and_judge(form(), take, request).heard.notes.front().on.milliseconds();
    };
    const double wave = 1000 / harmony::MidiNote(53).hz();
    CHECK(onset({}) == Approx(10 - 30 - 3 * wave));
    ScoreRequest request;
    request.delays = DelaysNow{{time::from_milliseconds(2), 1}, read_round_trip("11")};
    CHECK(onset(request) == Approx(10 - 2 - wave));
    Machine machine;
    machine.latency_ms = 4;
    take.info->machine = machine;
    CHECK(onset(request) == Approx(10 - 2 - wave - 7));
    const auto moved = hear_and_judge(form(), take, request);
    CHECK(moved.heard.end.milliseconds() == Approx(8000 - 7));
    CHECK(moved.delays->round_trip == RoundTripNow::taken);
    // What is typed beside it comes first.
    request.pickup = "cycles=0";
    CHECK(onset(request) == Approx(10 - 2 - 7));
    CHECK(!hear_and_judge(form(), take, {}).delays);
    // Of a file from elsewhere too.
    take.info.reset();
    request.pickup = "";
    CHECK(onset({}) == Approx(10));
    CHECK(onset(request) == Approx(10 - 2 - wave));
}
