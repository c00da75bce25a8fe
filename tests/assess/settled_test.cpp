#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace compline;
using tests::Comper;

// While a take is being played, the first `settled` verdicts are those it will have in the end.

namespace {

struct Played {
    int bar;
    double beat;
    std::string grip;
    double late = 0;
    double beats = 0.9;
};

const std::string bars =
    "Dm7 | G7 | Cmaj7 | A7 | Dm7 | Ab7 | F#m7 | C7 | Bbm7 | E7 | Ebm7 | B7 | Gm7 | Db7";

/// Late, pushed, wrong, approached, laid out, struck on, placed, astray for two bars.
const std::vector<Played> take = {
    {1, 1, "x5x56x"},       {1, 3, "x5x56x"},    {2, 1, "3x34xx", 110}, {2, 3, "3x34xx"},
    {2, 4.5, "x3x45x", 5},  {3, 3, "x3x45x"},    {4, 1, "5x55xx"},      {4, 4.5, "x4x45x", 0, 0.4},
    {5, 1, "x5x56x"},       {7, 1, "2x22xx"},    {8, 1, "2x22xx"},      {8, 2, "2x22xx"},
    {9, 2, "6x66xx"},       {9, 3, "6x66xx"},    {10, 1, "x6x67x"},     {11, 1, "7x78xx"},
    {12, 1, "7x78xx"},      {12, 2.5, "7x78xx"}, {13, 1, "3x33xx"},     {13, 4, "8x89xx", 0, 0.4},
    {14, 1, "9-x-9-10-x-x"}};

/// The take up to that moment, in beats from its beginning.
assess::Assessment heard_until(double beats) {
    Comper comper(bars, 120);
    for (const auto& strum : take) {
        const double at = 4 * (strum.bar - 1) + strum.beat - 1 + strum.late * 0.002;
        if (at > beats) continue;
        comper.strum(strum.bar, strum.beat, strum.grip, strum.late, strum.beats);
    }
    comper.until(1 + static_cast<int>(beats / 4), 1 + std::fmod(beats, 4));
    return comper.judged();
}

}  // namespace

TEST_CASE("what is settled while a take is played stands when it is over, and grows") {
    const auto whole = heard_until(60);
    REQUIRE(whole.changes.size() == 14);
    CHECK(whole.settled >= 12);
    std::size_t before = 0;
    std::size_t longest_open = 0;
    for (double beats = 0.5; beats <= 60; beats += 0.25) {
        const auto so_far = heard_until(beats);
        INFO("after " << beats << " beats, " << so_far.settled << " settled");
        REQUIRE(so_far.settled <= so_far.changes.size());
        CHECK(so_far.settled >= before);
        for (std::size_t n = 0; n < so_far.settled; ++n) {
            INFO("change " << n + 1);
            CHECK(tests::said(so_far.changes[n]) == tests::said(whole.changes[n]));
        }
        before = so_far.settled;
        longest_open = std::max(longest_open, so_far.changes.size() - so_far.settled);
    }
    CHECK(longest_open >= 1);
    CHECK(longest_open <= 5);
}
