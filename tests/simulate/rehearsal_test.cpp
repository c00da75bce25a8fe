#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/simulate/rehearsal.hpp>

using namespace compline;

namespace {

const char* const blues =
    "F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7b9 | Gm7 | C7 | F7 D7 | Gm7 C7";

}  // namespace

TEST_CASE("five mistakes are planted, one of each kind, and the judge finds them and no others") {
    const auto form = tests::form_of(blues, "F");
    const time::Bpm tempo(132);
    const time::Groove groove{time::Timeline(tempo), time::Swing::at(tempo)};
    for (std::uint64_t seed = 0; seed < 60; ++seed) {
        simulate::RehearsalRequest request;
        request.seed = seed;
        const auto rehearsal = simulate::rehearse(form, groove, request);
        INFO("seed " << seed);
        REQUIRE(rehearsal.mistakes.size() == 5);
        const auto messages =
            simulate::perform(rehearsal.script, groove, guitar::Fretboard::standard());
        const auto heard = listen::hear(messages, {}, time::Seconds(1000));
        assess::Performance performance;
        performance.passage = form.whole();
        performance.times_through = 2;
        const auto assessment = assess::assess(form, performance, groove, heard.notes,
                                               guitar::Fretboard::standard(), {});
        std::size_t found = 0;
        for (const auto& change : assessment.changes) {
            if (change.cost() <= 0) continue;
            REQUIRE(found < 5);
            const auto& planted = rehearsal.mistakes[found++];
            CHECK(change.pass == planted.pass);
            CHECK(change.bar == planted.bar);
            CHECK(change.beat == planted.beat);
        }
        CHECK(found == 5);
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
