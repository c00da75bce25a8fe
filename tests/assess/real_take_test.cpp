#include "support/catch.hpp"
#include "support/outside_data.hpp"
#include "support/real_takes.hpp"

#include <algorithm>
#include <cmath>

using namespace compline;

TEST_CASE(
    "a real take of four-string voicings: all 16 changes found, tones right, lateness exact") {
    const auto path = tests::outside_data(tests::take_of_voicings);
    if (!path) return;
    const auto notes = tests::annotated_notes(*path);
    const auto assessment = tests::judge_voicings(notes);
    REQUIRE(assessment.totals.changes == 16);
    CHECK(assessment.totals.count(assess::Verdict::missed) == 0);
    CHECK(assessment.totals.right_tones >= 15);
    for (const auto& change : assessment.changes) {
        // The nearest strum's first note: of the notes within 60 ms of the beat, the first
        // (every landing lies between -14 and +36 ms, data/README.md).
        double first = 1e9;
        for (const auto& note : notes) {
            const double onset = note.on.count();
            if (std::fabs(onset - change.at.count()) < 0.060) first = std::min(first, onset);
        }
        REQUIRE(change.lateness.has_value());
        INFO("bar " << change.bar);
        CHECK(change.lateness->count() == Approx(first - change.at.count()).margin(0.003));
        CHECK(change.lateness->milliseconds() > -14.5);
        CHECK(change.lateness->milliseconds() < 36.5);
        CHECK(change.beats_in == 0);
    }
}

TEST_CASE("a real take of single strings and double stops: every change lands") {
    const auto path = tests::outside_data(tests::take_of_single_strings);
    if (!path) return;
    const auto notes = tests::annotated_notes(*path);
    const auto assessment = tests::judge_single_strings(notes);
    REQUIRE(assessment.totals.changes == 6);
    CHECK(assessment.totals.count(assess::Verdict::missed) == 0);
    // The player opens on E flat, F and D; the third comes with the chord's next strum.
    CHECK(assessment.changes[0].tones == assess::Tones::right);
    CHECK(assessment.changes[0].lateness->milliseconds() == Approx(48.8).margin(0.5));
    CHECK(assessment.totals.right_tones == 6);
    // Over ringing E flat a single B flat before bar 9 is still E flat's fifth; the chord comes
    // broken, B flat on 2, its octave after it, and the third on 3, all ringing on.
    const auto& b_flat = assessment.changes[3];
    CHECK(b_flat.verdict == assess::Verdict::placed);
    CHECK(b_flat.beats_in == 1);
    CHECK(b_flat.lateness->milliseconds() == Approx(-15.6).margin(0.5));
    // A flat comes in on the off-beat of a player whose off-beats lie behind.
    CHECK(assessment.changes[4].verdict == assess::Verdict::placed);
    CHECK(assessment.changes[4].beats_in == 0.5);
}
