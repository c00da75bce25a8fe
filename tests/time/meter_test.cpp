#include "support/catch.hpp"

#include <compline/time/meter.hpp>

#include <string>

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
