// What the display says of an evening's state.

#include "report/rows.hpp"
#include "support/catch.hpp"

#include <compline/report/decided.hpp>

using namespace compline;
using practice::Refusal;
using report::decided_in;

namespace {

/// The blues, twice, in bar 2.
practice::State playing(chart::AskedManner manner = {}) {
    const auto form = tests::blues_form();
    auto asked = roadmap::Asked::of(form.whole(), 2);
    asked.manner = manner;
    asked.tempo = time::Bpm(120);
    auto state =
        practice::Evening({form, asked}, {}, {}, practice::JudgedMeanwhile::nothing).state();
    state.now = time::Seconds(2.5);
    return state;
}

}  // namespace

TEST_CASE("tempo, loop and pause are said as they were decided last", "[report]") {
    auto state = playing();
    state.tempo = time::Bpm(126);
    state.loop = chart::Passage{1, 4};
    CHECK(decided_in(state).tempo == time::Bpm(126));
    CHECK(decided_in(state).loop == chart::Passage{1, 4});
    CHECK(!decided_in(state).paused);
    CHECK(!decided_in(state).goes_on_with.has_value());
    state.paused = true;
    CHECK(decided_in(state).paused);
    CHECK(decided_in(state).goes_on_with == 1);
    state.now = time::Seconds(13);  // in bar 7
    CHECK(decided_in(state).goes_on_with == 5);
    state.over = true;  // stopped in the pause
    CHECK(!decided_in(state).paused);
}

TEST_CASE("players are out whom somebody sent out, not those who were never asked", "[report]") {
    auto state = playing();
    CHECK(!decided_in(state).drums_out);
    state.drums = false;
    CHECK(decided_in(state).drums_out);
    CHECK(!decided_in(state).bass_out);
    chart::AskedManner no_bass;
    no_bass.bass = chart::Bass::off;
    state = playing(no_bass);
    state.bass = false;
    CHECK(!decided_in(state).bass_out);
}

TEST_CASE("a command that changed nothing is answered in a few words", "[report]") {
    auto state = playing();
    CHECK(decided_in(state).refused.empty());
    state.refused = Refusal::slowest;
    CHECK(decided_in(state).refused == "no slower");
    for (const auto refusal : {Refusal::slowest, Refusal::fastest, Refusal::no_drums,
                               Refusal::no_bass, Refusal::not_looping, Refusal::ending}) {
        CHECK(!report::in_words(refusal).empty());
        CHECK(report::in_words(refusal).size() <= 20);
    }
}
