// What the hand held where a change went wrong, and what it should have held.

#include "report/planned.hpp"
#include "report/rehearsed.hpp"
#include "support/catch.hpp"

#include <compline/practice/fault_grips.hpp>
#include <compline/practice/time_alone.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

/// The clumsy hand's change at the start of a bar: "held -> due", or "none".
std::string grips_in(const practice::Report& report, int bar,
                     const guitar::VoicingPlan* shown = nullptr) {
    const auto& changes = report.assessment.changes;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (changes[i].bar != bar || changes[i].beat != time::BeatOfBar(1)) continue;
        const auto grips = practice::grips_of_fault(report, i, shown);
        return grips ? grips->held.shape.text() + " -> " + grips->due.shape.text() : "none";
    }
    return "no change";
}

}  // namespace

TEST_CASE("for a wrong tone the grip due is the one that was held, with that tone mended",
          "[practice][page]") {
    const auto report = clumsy_report();
    CHECK(grips_in(report, 4) == "x8789x -> x8689x");
    CHECK(grips_in(report, 8) == "x545xx -> x535xx");
}

TEST_CASE(
    "the strings on which a foreign tone rang are named, and fingers where a hand can hold it",
    "[practice][page]") {
    const auto worst = practice::worst_grips(clumsy_report(), 9);
    const auto fm7 = std::find_if(worst.begin(), worst.end(), [](const auto& grips) {
        return grips.held.shape.text() == "x8789x";
    });
    REQUIRE(fm7 != worst.end());
    CHECK(fm7->foreign == std::vector{4});
    CHECK(fm7->due.finger_text() == "x2134x");
}

TEST_CASE("of a late change what was held is the chord before, and what came at last was due",
          "[practice][page]") {
    CHECK(grips_in(clumsy_report(), 2) == "x324xx -> 5x56xx");
}

TEST_CASE("where tones are missing the grip due is the one that was right elsewhere",
          "[practice][page]") {
    auto strums = clumsy_hand();
    strums[0].frets = strums[1].frets = "x3545x";
    const auto map = through(eight_bars());
    CHECK(grips_in(judged(map, play(strums, map)), 6) == "x320xx -> x3545x");
}

TEST_CASE("of a missed change the old grip is shown, and a shell of the chord that was due",
          "[practice][page]") {
    CHECK(grips_in(clumsy_report(), 7) == "x320xx -> x646xx");
}

TEST_CASE("where a plan was shown its grips were due, whatever went wrong", "[practice][page]") {
    const auto report = clumsy_report();
    const auto plan = all_alike(eight_bars()).plans.front();
    CHECK(grips_in(report, 4, &plan) == "x8789x -> 5x568x");
    CHECK(grips_in(report, 2, &plan) == "x324xx -> 5x568x");
    CHECK(grips_in(report, 7, &plan) == "x320xx -> 5x568x");
    const auto worst = practice::worst_grips(report, 1, &plan);
    REQUIRE(worst.size() == 1);
    CHECK(worst.front().due == plan.voicings.front().grip);
    // Of bars that it does not have the take itself says what was due.
    const auto first_bars = all_alike(eight_bars(), chart::Passage{1, 2}).plans.front();
    CHECK(grips_in(report, 4, &first_bars) == "x8789x -> x8689x");
}

TEST_CASE("a plan for other chords says nothing of what was due", "[practice][page]") {
    auto plan = all_alike(eight_bars()).plans.front();
    for (auto& voicing : plan.voicings) voicing.change.to = harmony::read_chord("Gb7");
    CHECK(grips_in(clumsy_report(), 4, &plan) == "x8789x -> x8689x");
}

TEST_CASE("where no fret near by mends a wrong tone another grip was due", "[practice][page]") {
    auto report = clumsy_report();
    for (auto& change : report.assessment.changes) {
        if (change.bar != 4) continue;
        auto lost = change.wrong.front();
        lost.nearest_fret.reset();
        for (const int string : {2, 3, 5}) {
            lost.string = string;
            change.wrong.push_back(lost);
        }
    }
    const auto grips = grips_in(report, 4);
    CHECK(grips.rfind("x8789x -> ", 0) == 0);
    CHECK(grips != "x8789x -> xx6xxx");
}

TEST_CASE("what went well has no grips to show, and by sound nothing has", "[practice][page]") {
    CHECK(grips_in(clumsy_report(), 1) == "none");
    CHECK(practice::worst_grips(practice::by_time_alone(clumsy_report()), 9).empty());
}

TEST_CASE("the worst grips are as many as asked for, the costliest place first",
          "[practice][page]") {
    const auto report = clumsy_report();
    const auto worst = practice::worst_grips(report, 2);
    REQUIRE(worst.size() == 2);
    const auto cost = [&](const auto& grips) {
        return report.assessment.changes[grips.change].cost();
    };
    CHECK(cost(worst[0]) == 1);
    CHECK(cost(worst[0]) >= cost(worst[1]));
    CHECK(practice::worst_grips(report, 9).size() == 5);
}

TEST_CASE("of an input that sends all strings on one channel no grip is shown",
          "[practice][page]") {
    const auto map = through(eight_bars());
    const auto report = judged(map, on_one_channel(play(clumsy_hand(), map)));
    CHECK(practice::worst_grips(report, 9).empty());
}
