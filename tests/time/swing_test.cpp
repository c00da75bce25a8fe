#include "support/catch.hpp"

#include <compline/time/swing.hpp>

using namespace compline::time;

TEST_CASE("swing at 132 bpm is 2.58 to 1, what drummers do there") {
    CHECK(Swing::at(Bpm(132)).ratio() == Approx(2.58).margin(0.005));
}
