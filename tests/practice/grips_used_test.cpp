#include "report/rehearsed.hpp"
#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/guitar/voicing_plan.hpp>
#include <compline/practice/grips_used.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

/// Dm7 and G7, a bar each, by these grips one after the other.
practice::Report two_chords(const std::vector<std::string>& grips) {
    std::vector<Strum> strums;
    for (std::size_t i = 0; i < grips.size(); ++i) {
        if (!grips[i].empty()) strums.push_back({static_cast<int>(i) + 1, 1, grips[i], 0, 3});
    }
    const auto map = through(tests::form_of("Dm7 | G7"), static_cast<int>(grips.size()) / 2);
    return judged(map, play(strums, map));
}

practice::GripsUsed used(const practice::Report& report) {
    return practice::grips_used(report, report.map.form().whole(), harmony::Strictness::working);
}

}  // namespace

TEST_CASE("of several grips for a chord the one used most is kept", "[practice]") {
    const auto grips =
        used(two_chords({"x5756x", "3x34xx", "x5x56x", "3x34xx", "x5x56x", "3x34xx"}));
    REQUIRE(grips.kept.size() == 2);
    CHECK(grips.kept[0].shape == shape("x5x56x"));
    CHECK(grips.kept[0].times == 2);
    CHECK(grips.kept[1].times == 3);
    REQUIRE(grips.left_out.size() == 1);
    CHECK(grips.left_out[0].shape == shape("x5756x"));
    CHECK(grips.left_out[0].why_not.empty());
    CHECK(grips.open.empty());
}

TEST_CASE("a grip that is wrong for the chord is left out with the reason, however often it came",
          "[practice]") {
    const auto grips =
        used(two_chords({"x5x66x", "3x34xx", "x5x66x", "3x34xx", "x5x56x", "3x34xx"}));
    REQUIRE(grips.left_out.size() == 1);
    CHECK(grips.left_out[0].shape == shape("x5x66x"));
    CHECK(grips.left_out[0].why_not == "in which C♯ does not belong");
    REQUIRE(grips.kept.size() == 2);
    CHECK(grips.kept[0].shape == shape("x5x56x"));
}

TEST_CASE("a chord that was never struck is left to the plan", "[practice]") {
    const auto grips = used(two_chords({"x5x56x", ""}));
    CHECK(grips.kept.size() == 1);
    REQUIRE(grips.open.size() == 1);
    CHECK(grips.open[0].bar == 2);
    CHECK(grips.open[0].chord.symbol() == "G7");
}

TEST_CASE("a plan with the grips that were used holds them, and goes its own way in between",
          "[practice]") {
    const auto report = two_chords({"x5x56x", ""});
    auto form = report.map.form();
    for (auto& pin : used(report).pins()) form.chart.voicings.push_back(pin);
    const auto plan = guitar::plan_voicings(form, form.whole(), form.chart.tempo,
                                            guitar::Fretboard::standard(), {})
                          .front();
    CHECK(plan.voicings[0].grip.shape == shape("x5x56x"));
    CHECK(plan.voicings[0].pinned);
    CHECK_FALSE(plan.voicings[1].pinned);
}
