#include "measure.d/habits.hpp"

#include "support/catch.hpp"
#include "support/our_forms.hpp"

using namespace compline;

// The judge held to what a teacher would say after ten minutes of each pupil. The bounds are loose,
// for few takes; `tools/bench habits` has many, and the figures that count.

TEST_CASE("what a pupil does wrong again and again is named first, of every kind") {
    constexpr int takes = 3;
    constexpr int times = 6;
    int first = 0;
    int all = 0;
    for (const auto& planted : measure::planted_habits()) {
        const auto it = measure::find_planted(tests::our_forms(), planted, 1, takes, times, 90210);
        INFO(planted.name);
        REQUIRE(it.planted == takes);
        CHECK(it.first >= takes - 1);
        first += it.first;
        all += it.planted;
    }
    CHECK(first >= 0.9 * all);
}

TEST_CASE("of pupils who err by chance hardly one is said to have a habit") {
    const auto it = measure::find_none(tests::our_forms(), 40, 6, 90211);
    CHECK(it.takes == 40);
    CHECK(it.named <= 3);
}

TEST_CASE("who was elsewhere in the form is told by how many bars, and nobody else") {
    const auto it = measure::find_astray(tests::our_forms(), 80, 90212);
    REQUIRE(it.runs >= 5);
    CHECK(it.found >= 0.9 * it.runs);
    CHECK(it.false_takes == 0);
}
