#include "measure.d/by_sound.hpp"

#include "support/catch.hpp"
#include "support/our_forms.hpp"

using namespace compline;
using simulate::Deed;

// 48 of the pupils of `tools/bench confusion --by-sound`; the bounds are what 480 of them give, and
// some room.

TEST_CASE("heard by sound, few chords that come in time are called faulty, and most lates named") {
    const auto figures = measure::by_sound(tests::our_forms(), 48, 1);
    CHECK(figures.takes == 48);
    CHECK(figures.all.clean > 2000);
    CHECK(figures.all.late > 30);
    CHECK(figures.all.false_alarms_in_100() < 5);
    CHECK(figures.all.late_named >= 0.5 * figures.all.late);
    CHECK(figures.all.missed == 0);
}
