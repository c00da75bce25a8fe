// What planning may cost: what it keeps and compares is counted, and beyond a bound it says so.

#include "../../src/guitar/several_ways.hpp"
#include "../../src/guitar/stops.hpp"
#include "../../tools/plan.d/random_tune.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/guitar/planning.hpp>

#include <cstdint>
#include <string>
#include <vector>

using namespace compline;
using guitar::PlanningBounds;

namespace {

const auto neck = guitar::Fretboard::standard();

std::string refusal(const chart::Form& form, const guitar::VoicingWishes& wishes, int count,
                    const PlanningBounds& bounds) {
    try {
        (void)guitar::plan_voicings(form, form.whole(), form.chart.tempo, neck, wishes, count,
                                    bounds);
    } catch (const guitar::TooMuchToPlan& error) {
        return error.what();
    }
    return "";
}

bool says(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a tune with more grips than may be kept is refused before they are all found",
          "[guitar]") {
    const auto form = plan_rivals::random_tune(3, 12, 1);
    PlanningBounds bounds;
    bounds.grips = 500;
    guitar::VoicingWishes wishes;
    const auto plain = refusal(form, wishes, 1, bounds);
    INFO(plain);
    CHECK(says(plain, "12 bars with more than 500 grips"));
    CHECK(says(plain, "ask for fewer bars, fewer strings"));
    CHECK_FALSE(says(plain, "thumb"));
    CHECK_FALSE(says(plain, "alternatives"));
    wishes.thumb = true;
    wishes.long_chords_move = true;
    const auto wishful = refusal(form, wishes, 3, bounds);
    CHECK(says(wishful, "no thumb, chords that stay where they are, fewer alternatives"));
}

TEST_CASE("a tune that takes too many searches is refused, and what it has is said", "[guitar]") {
    const auto form = plan_rivals::random_tune(3, 12, 1);
    PlanningBounds bounds;
    bounds.searches = 1000;  // fewer than one walk takes
    const auto said = refusal(form, {}, 1, bounds);
    INFO(said);
    CHECK(says(said, "12 bars with 12 changes and"));
    CHECK(says(said, "grips a change"));
    CHECK(refusal(form, {}, 1, {}).empty());
}

TEST_CASE("other plans are looked for where they may be good, not everywhere", "[guitar]") {
    const auto form = plan_rivals::random_tune(5, 40, 1);
    PlanningBounds bounds;
    bounds.searches = 1'000'000;  // asking every region for its best takes 1,581,764
    CHECK(refusal(form, {}, 10, bounds).empty());
}

TEST_CASE("a chord's grips are kept once, whatever comes before it", "[guitar]") {
    const auto form =
        tests::make_form(time::Meter{4}, time::Bpm(120), {"Bb7", "Bdim7", "F7", "Bdim7", "Cm7"});
    const auto stops = guitar::stops_of(form, form.whole(), form.chart.tempo, neck, {}).stops;
    const auto& one = *stops[1].candidates;
    const auto& other = *stops[3].candidates;
    REQUIRE(&one != &other);
    CHECK(&one.packed(0) == &other.packed(0));
    CHECK(&stops[1].ids.list() == &stops[3].ids.list());
    int dearer = 0;
    for (std::uint32_t id = 0; id < one.size(); ++id) dearer += one.cost(id) != other.cost(id);
    CHECK(dearer > 0);
}

TEST_CASE("planning tells how far it is", "[guitar]") {
    const auto form = plan_rivals::random_tune(3, 12, 1);
    std::int64_t told = 0;
    double share = 0;
    bool sane = true;
    PlanningBounds watched;
    watched.progress = [&](std::int64_t done, std::int64_t all) {
        ++told;
        const double now = static_cast<double>(done) / static_cast<double>(all);
        sane = sane && now >= share && now <= 1;
        share = now;
    };
    const auto plans =
        guitar::plan_voicings(form, form.whole(), form.chart.tempo, neck, {}, 1, watched);
    CHECK(told >= 36);  // each bar gets its grips, is looked ahead from and walked to
    CHECK(sane);
    CHECK(share > 0.5);  // it has told of the walk too
    CHECK(plans.front().cost() ==
          guitar::plan_voicings(form, form.whole(), form.chart.tempo, neck, {}).front().cost());
}
