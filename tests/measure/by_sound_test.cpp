#include "measure.d/by_sound.hpp"

#include "support/catch.hpp"
#include "support/our_forms.hpp"

using namespace compline;
// Time alone held to figures, on a guitarist who knows nothing of its rules, with a seed that
// nobody looked at. What cannot be told: a late chord that comes on an off-beat, the old one
// ringing on.

TEST_CASE("heard by sound, few chords that come in time are called faulty, and most lates named") {
    const auto figures = measure::by_sound(tests::our_forms(), 240, 70431);
    CHECK(figures.takes == 240);
    CHECK(figures.all.clean > 14000);
    CHECK(figures.all.late > 200);
    CHECK(figures.all.false_alarms_in_100() <= 0.2);
    CHECK(figures.all.late_named >= 0.8 * figures.all.late);
    CHECK(figures.all.missed == 0);
}
