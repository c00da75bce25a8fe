// A few of the takes that tools/bench offers measures by the hundred.

#include "measure.d/offers.hpp"

#include "support/catch.hpp"
#include "support/our_forms.hpp"

#include <string>

using namespace compline;
using measure::Misplayed;

TEST_CASE("what a whole take was played to is offered, and nothing for one that fits",
          "[measure][offers]") {
    const auto figures = measure::offers_made(tests::all_our_forms(), 3, 11);
    int right = 0;
    int told = 0;
    for (int way = 0; way < measure::ways_to_misplay; ++way) {
        const auto misplayed = static_cast<Misplayed>(way);
        const auto& it = figures.at(static_cast<std::size_t>(way));
        INFO(name_of(misplayed));
        for (const auto& slip : it.slips) UNSCOPED_INFO(slip);
        if (misplayed == Misplayed::nothing) {
            CHECK(it.takes == 12);
            CHECK(it.right == 12);
        } else if (misplayed != Misplayed::off_beats_delayed) {
            CHECK(it.takes == 3);
            CHECK(it.right >= 2);
            right += it.right;
            told += it.takes - it.doubtful;
        }
    }
    CHECK(100 * right >= 95 * told);
}
