#include "support/catch.hpp"

#include <compline/time/meter.hpp>

#include <string>
#include <utility>

using namespace compline::time;

namespace {

constexpr Ticks dotted_quarter(1440);

/// The beats that carry weight, from 1: "1 3".
std::string strong_beats(const Meter& meter) {
    std::string text;
    for (int beat = 0; beat < meter.beats(); ++beat) {
        if (meter.is_strong(beat)) text += (text.empty() ? "" : " ") + std::to_string(beat + 1);
    }
    return text;
}

std::string written(const Meter& meter) {
    const auto sign = meter.written();
    return std::to_string(sign.above) + "/" + std::to_string(sign.below);
}

}  // namespace

TEST_CASE("a group of beats begins with weight: four is two and two, five three and two") {
    CHECK(strong_beats(Meter(3)) == "1");
    CHECK(strong_beats(Meter(4)) == "1 3");
    CHECK(strong_beats(Meter(5)) == "1 4");
    CHECK(strong_beats(Meter(6)) == "1 4");
    CHECK(strong_beats(Meter(quarter_note, {2, 3})) == "1 3");
    CHECK(strong_beats(Meter(eighth_note, {2, 2, 3})) == "1 3 5");
    CHECK_FALSE(Meter(3).is_strong(3));  // no beat of the bar
}

TEST_CASE("six eight is two beats of three eighths, each with weight") {
    const Meter six_eight(dotted_quarter, {1, 1});
    CHECK(six_eight.beats() == 2);
    CHECK(six_eight.beat() == dotted_quarter);
    CHECK(six_eight.bar() == Meter(3).bar());
    CHECK(strong_beats(six_eight) == "1 2");
    CHECK(six_eight != Meter(3));
}

TEST_CASE("a bar lasts its beats") {
    for (int beats = 3; beats <= 6; ++beats) CHECK(Meter(beats).bar() == Ticks(960 * beats));
    CHECK(Meter(dotted_quarter, {2, 2}).bar() == Ticks(5760));
    CHECK(Meter(eighth_note, {2, 2, 3}).bar() == Ticks(3360));
}

TEST_CASE("a meter is written with the note that its beat is, or that divides it in three") {
    for (int beats = 3; beats <= 6; ++beats) {
        CHECK(written(Meter(beats)) == std::to_string(beats) + "/4");
    }
    CHECK(written(Meter(dotted_quarter, {1, 1})) == "6/8");
    CHECK(written(Meter(dotted_quarter, {2, 2})) == "12/8");
    CHECK(written(Meter(Ticks(1920), {1, 1})) == "2/2");
    CHECK(written(Meter(eighth_note, {2, 2, 3})) == "7/8");
}

TEST_CASE("the meters of charts are found by their two numbers, and no others") {
    for (const auto& [above, below] :
         {std::pair(2, 2), {2, 4}, {3, 4}, {4, 4}, {5, 4}, {6, 4}, {6, 8}, {9, 8}, {12, 8}}) {
        INFO(above << "/" << below);
        const auto meter = Meter::find(above, below);
        REQUIRE(meter);
        CHECK(written(*meter) == std::to_string(above) + "/" + std::to_string(below));
        CHECK(meter->bar().count() == 3840 * above / below);
    }
    for (const auto& [above, below] : {std::pair(1, 4), {7, 4}, {3, 8}, {4, 2}, {4, 8}, {0, 4}}) {
        CHECK_FALSE(Meter::find(above, below));
    }
    CHECK(Meter::find(4, 4) == Meter(4));
}

TEST_CASE("the foot taps halves in 2/2 and dotted quarters in 6/8, and only quarters swing") {
    CHECK(Meter::find(2, 2)->beat() == quarter_note * 2);
    CHECK(Meter::find(2, 2)->swung() == quarter_note);
    CHECK(Meter::find(9, 8)->beat() == dotted_quarter);
    CHECK(Meter::find(9, 8)->swung() == Ticks(0));
    CHECK(strong_beats(*Meter::find(12, 8)) == "1 3");
    CHECK(Meter::find(6, 8)->is_compound());
    for (int beats = 2; beats <= 6; ++beats) CHECK_FALSE(Meter(beats).is_compound());
}

TEST_CASE("half-time and double-time feel change the beat and leave the bar and its name alone") {
    const auto half = Meter(4).half_time();
    REQUIRE(half);
    CHECK(half->beats() == 2);
    CHECK(half->swung() == quarter_note * 2);
    CHECK(written(*half) == "4/4");
    CHECK(*half != *Meter::find(2, 2));
    const auto twice = Meter(3).double_time();
    REQUIRE(twice);
    CHECK(twice->beats() == 6);
    CHECK(twice->beat() == eighth_note);
    CHECK(twice->swung() == eighth_note);
    CHECK(twice->bar() == Meter(3).bar());
    CHECK_FALSE(Meter(3).half_time());
    CHECK_FALSE(Meter(6).double_time());
    CHECK_FALSE(Meter::find(6, 8)->half_time());
    CHECK_FALSE(Meter::find(6, 8)->double_time());
}

TEST_CASE("places in a bar are counted in quarters, in six eight in eighths") {
    CHECK(Meter(4).beat_of_bar(quarter_note * 2 + eighth_note).number() == 3.5);
    CHECK(Meter::find(2, 2)->beat_of_bar(quarter_note * 2).number() == 3);
    CHECK(Meter::find(6, 8)->beat_of_bar(dotted_quarter).number() == 4);
    CHECK(Meter(4).half_time()->beat_of_bar(quarter_note * 2).number() == 3);
}
