// Whether the history sees who gets better, by players made by rules of their own; tools/bench
// weeks has the whole table.

#include "measure.d/weeks.hpp"

#include "support/catch.hpp"

using namespace compline;
using measure::trends_found;

TEST_CASE("ten points in eight evenings are seen after twelve in nine of ten players",
          "[history]") {
    constexpr int players = 80;
    const auto found = trends_found({12, 0.1, 0.02}, players, 1);
    CHECK(found.better * 10 >= players * 9);
    CHECK(found.worse == 0);
    // Loops of the hardest bars would hide some of them.
    CHECK(found.plainly_better < found.better);
}

TEST_CASE("who plays as ever is told of a trend in one of twenty cases or fewer", "[history]") {
    constexpr int players = 120;
    const auto found = trends_found({8, 0, 0.03}, players, 1);
    CHECK((found.better + found.worse) * 20 <= players);
    const auto worse = trends_found({12, -0.1, 0.02}, 30, 1);
    CHECK(worse.worse * 10 >= 30 * 9);
    CHECK(worse.better == 0);
}
