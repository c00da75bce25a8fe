// A take of which only the sound was heard.

#include "report/by_sound.hpp"
#include "support/catch.hpp"

#include <compline/practice/offers.hpp>
#include <compline/practice/take.hpp>
#include <compline/practice/time_alone.hpp>

using namespace compline;
using namespace compline::practice;
using namespace compline::tests;

namespace {

Report judged_by_sound(const Take& take, const ScoreRequest& request = {}) {
    return hear_and_judge(eight_bars(), take, request);
}

double lateness(const Report& report, std::size_t change) {
    return report.assessment.changes.at(change).lateness.value().milliseconds();
}

}  // namespace

TEST_CASE("a take by sound is judged by its onsets, soft ones and quick ones among them") {
    auto take = take_by_sound(slow_hand());
    for (std::size_t i = 0; i < take.messages.size(); i += 2) {
        take.messages[i].message = midi::note_on(1, 60, i % 4 == 0 ? 1 : 127);
    }
    const auto report = judged_by_sound(take);
    CHECK(!judges_tones(report));
    CHECK(report.heard.notes.size() == slow_hand().size());
    CHECK(report.cleaned == listen::Cleaned{});
    CHECK(report.assessment.time.all.count == 13);
    CHECK(lateness(report, 1) == Approx(88).margin(0.01));
    CHECK(report.hints.empty());
}

TEST_CASE("of a take by sound the way of the sound is taken off, and no cycles of a wave") {
    auto take = take_by_sound(slow_hand());
    take.info->delay = {time::from_milliseconds(7), 1.5};
    CHECK(lateness(judged_by_sound(take), 1) == Approx(81).margin(0.01));
    take.info->pickup = "cycles=3";
    CHECK(lateness(judged_by_sound(take), 1) == Approx(81).margin(0.01));
}

TEST_CASE("the file of a take by sound gives the same report, whatever is asked of tones") {
    const auto map = through(eight_bars());
    const auto take = take_by_sound(slow_hand());
    const auto again = read_take(to_file(take, map));
    REQUIRE(again.info);
    CHECK(again.info->heard == HeardBy::sound);
    const auto report = report::to_json(judged_by_sound(again));
    CHECK(report == report::to_json(judged_by_sound(read_take(to_file(again, map)))));
    ScoreRequest request;
    request.strictness = harmony::Strictness::working;
    request.pickup = "low-first cycles=2";
    request.fretboard = guitar::Fretboard::standard();
    CHECK(report == report::to_json(judged_by_sound(again, request)));
}

TEST_CASE("a take by sound that goes on is judged so far by time alone") {
    const auto take = take_by_sound(slow_hand());
    const auto report = judge_so_far(through(eight_bars()), take, {}, time::Seconds(-1e9));
    CHECK(!judges_tones(report));
    CHECK(report.assessment.changes.front().heard_by == HeardBy::sound);
}

TEST_CASE("a take by MIDI judged by time alone keeps its times and forgets its tones") {
    const auto by_midi = clumsy_report();
    const auto by_time = by_time_alone(by_midi);
    CHECK(by_midi.assessment.totals.right_tones == 6);
    CHECK(by_time.assessment.totals.right_tones == 0);
    REQUIRE(by_time.assessment.changes.size() == by_midi.assessment.changes.size());
    CHECK(by_time.assessment.changes[1].verdict == assess::Verdict::late);
    CHECK(lateness(by_time, 1) == Approx(lateness(by_midi, 1)));
    CHECK(right_changes(by_time).right == 8);
}
