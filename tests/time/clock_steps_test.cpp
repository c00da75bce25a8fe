#include "support/catch.hpp"

#include <compline/time/clock_steps.hpp>

#include <vector>

using namespace compline::time;
using Kind = ClockSteps::Kind;

namespace {

constexpr Seconds near{0.05};

}  // namespace

TEST_CASE("a flag and a jump about the same lost sound count once, whichever is noticed first") {
    ClockSteps steps;
    steps.add(Seconds(5.02), Kind::lost, near);
    steps.add(Seconds(5.00), Kind::lost, near);
    CHECK(steps.times() == std::vector<Seconds>{Seconds(5.02)});
    CHECK(steps.losses() == 1);
}

TEST_CASE("steps stand in order of time, though one was found later than the next was flagged") {
    ClockSteps steps;
    steps.add(Seconds(7), Kind::lost, near);
    steps.add(Seconds(6.9), Kind::lost, near);
    steps.add(Seconds(8), Kind::stepped, near);
    CHECK(steps.times() == std::vector<Seconds>{Seconds(6.9), Seconds(7), Seconds(8)});
    CHECK(steps.losses() == 2);
}

TEST_CASE("a step of the clock loses no sound, until an xrun is known at the same place") {
    ClockSteps steps;
    steps.add(Seconds(1), Kind::stepped, near);
    CHECK(steps.losses() == 0);
    steps.add(Seconds(1.01), Kind::lost, near);
    CHECK(steps.losses() == 1);
    steps.add(Seconds(1.02), Kind::stepped, near);
    CHECK(steps.losses() == 1);
    CHECK(steps.times().size() == 1);
}

TEST_CASE("a storm of steps leaves one in each stretch, so nothing in it is taken for certain") {
    ClockSteps steps;
    for (int i = 0; i <= 1000; ++i) steps.add(Seconds(i * 0.01), Kind::lost, near);
    CHECK(steps.times().size() <= 201);
    for (double t = 0; t <= 10; t += 0.001) CHECK(steps.any_near(Seconds(t), Seconds(0.06)));
}

TEST_CASE("near a step is near on both sides, the edge included") {
    ClockSteps steps;
    steps.add(Seconds(10), Kind::lost, near);
    steps.add(Seconds(20), Kind::lost, near);
    for (const double t : {9.0, 10.0, 11.0, 19.5, 21.0})
        CHECK(steps.any_near(Seconds(t), Seconds(1)));
    for (const double t : {8.99, 11.01, 15.0, 21.01})
        CHECK(!steps.any_near(Seconds(t), Seconds(1)));
    CHECK(!ClockSteps{}.any_near(Seconds(0), Seconds(1)));
}
