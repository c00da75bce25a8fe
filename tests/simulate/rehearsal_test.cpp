#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/voicings.hpp"

#include <compline/simulate/rehearsal.hpp>

#include <filesystem>
#include <string>

using namespace compline;

namespace {

const char* const blues =
    "F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7b9 | Gm7 | C7 | F7 D7 | Gm7 C7";

/// What the judge should say of a planted mistake.
bool is_found(simulate::Mistake planted, const assess::Change& change) {
    using simulate::Mistake;
    switch (planted) {
        case Mistake::late:
            return change.verdict == assess::Verdict::late;
        case Mistake::missed:
            return change.verdict == assess::Verdict::missed;
        case Mistake::missing_tone:
            return change.tones == assess::Tones::incomplete;
        case Mistake::wrong_tone:
            return change.wrong.size() == 1 && !change.wrong.front().stuck_finger;
        case Mistake::stuck_finger:
            return change.wrong.size() == 1 && change.wrong.front().stuck_finger;
    }
    return false;
}

/// Has a rehearsal judged; every planted mistake must be reported where it was made, and nothing
/// else.
void check_judged_as_planted(const chart::Form& form, double tempo,
                             const simulate::RehearsalRequest& request, std::size_t fewest,
                             bool kinds_too = false) {
    const time::Bpm bpm(tempo);
    const time::Groove groove{time::Timeline(bpm), form.chart.swing_at(bpm)};
    const auto rehearsal = simulate::rehearse(form, groove, request);
    const auto board = guitar::Fretboard::standard();
    const auto heard =
        listen::hear(simulate::perform(rehearsal.script, groove, board), {}, time::Seconds(1e4));
    assess::Performance performance;
    performance.route = chart::Route::of(form.whole(), request.times_through);
    const auto assessment = assess::assess(form, performance, groove, heard.notes, board, {});
    INFO(form.chart.title << " at " << tempo << ", seed " << request.seed);
    REQUIRE(rehearsal.mistakes.size() >= fewest);
    std::size_t found = 0;
    for (const auto& change : assessment.changes) {
        if (change.cost() <= 0) continue;
        REQUIRE(found < rehearsal.mistakes.size());
        const auto& planted = rehearsal.mistakes[found++];
        CAPTURE(planted.words);
        CHECK(change.pass == planted.pass);
        CHECK(change.bar == planted.bar);
        CHECK(change.beat == planted.beat);
        if (kinds_too) CHECK(is_found(planted.kind, change));
    }
    CHECK(found == rehearsal.mistakes.size());
}

}  // namespace

TEST_CASE("five mistakes are planted, one of each kind, and the judge finds them and no others") {
    const auto form = tests::form_of(blues, "F");
    for (std::uint64_t seed = 0; seed < 60; ++seed) {
        simulate::RehearsalRequest request;
        request.seed = seed;
        check_judged_as_planted(form, 132, request, 5);
    }
}

TEST_CASE("the judge finds what was planted in all our charts, slow and fast") {
    for (const char* name : {"blue-kettle-on-the-back-stairs", "the-ferryman-counts-to-nine",
                             "three-lamps-on-weir-lane", "waltz-for-a-leaning-chimney"}) {
        const auto form = chart::unroll(chart::load_chart(
            std::filesystem::path(COMPLINE_SOURCE_DIR) / "charts" / (std::string(name) + ".yaml")));
        for (const double tempo : {80.0, 132.0, 240.0}) {
            for (std::uint64_t seed = 0; seed < 8; ++seed) {
                simulate::RehearsalRequest request;
                request.seed = seed;
                // Tolerance is 25 ms at 240 bpm: a player that scattered would be late in earnest.
                if (tempo > 200) request.scatter = time::Seconds(0.005);
                // Not every tune has a place for each kind of mistake.
                check_judged_as_planted(form, tempo, request, 4);
            }
        }
    }
}

TEST_CASE("the same seed is the same performance") {
    const auto form = tests::form_of(blues, "F");
    const time::Groove groove{time::Timeline(time::Bpm(132)), time::Swing::straight()};
    const auto once = simulate::rehearse(form, groove, {});
    const auto again = simulate::rehearse(form, groove, {});
    REQUIRE(once.script.size() == again.script.size());
    for (std::size_t i = 0; i < once.script.size(); ++i) {
        CHECK(once.script[i].lateness == again.script[i].lateness);
        CHECK(once.script[i].shape == again.script[i].shape);
    }
    simulate::RehearsalRequest other;
    other.seed = 2;
    CHECK(simulate::rehearse(form, groove, other).script.front().lateness !=
          once.script.front().lateness);
}

namespace {

/// Grips of two to five strings, as a plan of little motion has them.
const tests::Grips small_grips = {
    {"F7", {"xx12xx", ""}},    {"Bb7", {"x1013x", ""}}, {"Cm7", {"x3534x", ""}},
    {"Bdim7", {"xx343x", ""}}, {"Gm7", {"xx333x", ""}}, {"D7b9", {"xx454x", ""}},
    {"C7", {"xx231x", ""}},    {"D7", {"xx453x", ""}},  {"Am7b5", {"5x554x", ""}},
};

}  // namespace

TEST_CASE("with a plan of voicings the guitarist plays it, and each repetition in it") {
    const auto form = tests::form_of(blues, "F");
    const time::Groove groove{time::Timeline(time::Bpm(132)), time::Swing::straight()};
    const auto plan = tests::plan_by_hand(form, small_grips);
    simulate::RehearsalRequest request;
    request.voicings = &plan;
    const auto rehearsal = simulate::rehearse(form, groove, request);
    std::size_t as_planned = 0;
    for (const auto& strum : rehearsal.script) {
        const auto in_form = strum.at % form.length();
        // An off-beat before a chord is a push, which plays that chord.
        const auto* const now = plan.at(in_form);
        const auto* const soon = plan.at((in_form + time::Ticks(480)) % form.length());
        as_planned += strum.shape == now->grip.shape || strum.shape == soon->grip.shape ? 1 : 0;
    }
    // All but what was spoilt on purpose: three grips and a missed one, struck twice at most.
    CHECK(as_planned + 8 >= rehearsal.script.size());
    CHECK(as_planned < rehearsal.script.size());
}

TEST_CASE("the judge finds what was planted in planned voicings, and nothing else") {
    const auto form = tests::form_of(blues, "F");
    for (const auto& grips : {small_grips, tests::Grips{}}) {
        const auto plan = tests::plan_by_hand(form, grips);
        for (std::uint64_t seed = 0; seed < 40; ++seed) {
            simulate::RehearsalRequest request;
            request.seed = seed;
            request.voicings = &plan;
            check_judged_as_planted(form, 132, request, 5, true);
        }
    }
}

TEST_CASE("the judge finds what was planted in the planner's voicings of every style") {
    const auto form = tests::form_of(blues, "F");
    for (const auto style : {guitar::VoicingStyle::mixed, guitar::VoicingStyle::shells,
                             guitar::VoicingStyle::four_note, guitar::VoicingStyle::rootless}) {
        guitar::VoicingWishes wishes;
        wishes.style = style;
        // As the demo has it.
        if (style == guitar::VoicingStyle::mixed) wishes.strings = {6, 5, 4, 3};
        const auto plans = guitar::plan_voicings(form, form.whole(), time::Bpm(132),
                                                 guitar::Fretboard::standard(), wishes);
        CAPTURE(guitar::name_of(style));
        for (std::uint64_t seed = 0; seed <= 20; ++seed) {
            simulate::RehearsalRequest request;
            request.seed = seed;
            request.voicings = &plans.front();
            // Not every style has a place for each kind of mistake.
            check_judged_as_planted(form, 132, request,
                                    style == guitar::VoicingStyle::mixed ? 5 : 4, true);
        }
    }
}
