#include "support/catch.hpp"

#include <compline/time/units.hpp>

#include <type_traits>

using namespace compline::time;

namespace {

// A bare number is no beat: 1 is the first, and 0 would be one too early.
static_assert(!std::is_convertible_v<double, BeatOfBar>);
static_assert(!std::is_convertible_v<Ticks, BeatOfBar>);
static_assert(BeatOfBar() == BeatOfBar(Ticks(0)));

}  // namespace

TEST_CASE("beats of a bar are counted from 1, and what lies between two has a fraction") {
    CHECK(BeatOfBar(Ticks(0)).number() == 1);
    CHECK(BeatOfBar(quarter_note).number() == 2);
    CHECK(BeatOfBar(quarter_note + eighth_note).number() == 2.5);
    CHECK(BeatOfBar(quarter_note * 3) == BeatOfBar(4));
    CHECK(BeatOfBar(2.5) < BeatOfBar(3));
}

TEST_CASE("from the bar line to a beat are as many quarter notes as were counted before it") {
    CHECK(BeatOfBar(1).from_bar_line() == Beats(0));
    CHECK(BeatOfBar(4.5).from_bar_line().count() == 3.5);
    CHECK(BeatOfBar(Ticks(1680)).from_bar_line() == Beats(Ticks(1680)));
}

TEST_CASE("two eighths are a quarter") { CHECK(eighth_note * 2 == quarter_note); }

TEST_CASE("units do not mix: a bare number is neither a beat nor a second") {
    CHECK(!std::is_convertible_v<int, Ticks>);
    CHECK(!std::is_convertible_v<double, Seconds>);
    CHECK(!std::is_convertible_v<double, Beats>);
    CHECK(!std::is_convertible_v<Ticks, Beats>);
    CHECK(!std::is_convertible_v<double, Bpm>);
}

TEST_CASE("a frame is the nearest one to its time") {
    CHECK(nearest_frame(Seconds(1), SampleRate(48000)).count() == 48000);
    CHECK(nearest_frame(Seconds(0.00001), SampleRate(48000)).count() == 0);
    CHECK(nearest_frame(Seconds(0.00002), SampleRate(48000)).count() == 1);
    CHECK(nearest_frame(Seconds(-0.5), SampleRate(44100)).count() == -22050);
}
