#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/simulate/rehearsal.hpp>

#include <filesystem>
#include <string>

using namespace compline;

namespace {

const char* const blues =
    "F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7b9 | Gm7 | C7 | F7 D7 | Gm7 C7";

/// Has a rehearsal judged; every planted mistake must be reported where it was made, and nothing
/// else.
void check_judged_as_planted(const chart::Form& form, double tempo,
                             const simulate::RehearsalRequest& request, std::size_t fewest) {
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
        CHECK(change.pass == planted.pass);
        CHECK(change.bar == planted.bar);
        CHECK(change.beat == planted.beat);
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
