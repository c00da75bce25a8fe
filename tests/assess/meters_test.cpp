#include "support/catch.hpp"
#include "support/comper.hpp"

using namespace compline;
using tests::Comper;

namespace {

/// Four bars, the second of three beats. What is called its beats 4 to 7 is bar 3.
chart::Form with_a_bar_of_three(const std::string& bars = "Cmaj7 | Dm7 | % | G7") {
    auto form = tests::form_of(bars);
    form.bars[1].meter = time::Meter(3);
    form.spans[1].length -= time::quarter_note;
    for (std::size_t bar = 2; bar < 4; ++bar) {
        form.bars[bar].start -= time::quarter_note;
        form.spans[bar].start -= time::quarter_note;
    }
    return form;
}

/// The time of a guitarist who plays every beat of it.
assess::TimeKeeping time_of_every_beat(const char* rhythm) {
    Comper comper(with_a_bar_of_three(), 120);
    for (int beat = 1; beat <= 4; ++beat) comper.strum(1, beat, "x3x45x");
    for (int beat = 1; beat <= 7; ++beat) comper.strum(2, beat, "x5x56x");
    for (int beat = 8; beat <= 11; ++beat) comper.strum(2, beat, "3x34xx");
    return comper.judged(tests::with_rhythm(rhythm)).time;
}

/// Dm7 through bars 2 and 3, but for a strum of another chord on a beat of bar 3.
assess::Change with_foreign_strum(int foreign_beat) {
    Comper comper(with_a_bar_of_three(), 120);
    comper.strum(1, 1, "x3x45x", 0, 3);
    for (int beat = 1; beat <= 7; ++beat) {
        comper.strum(2, beat, beat == 3 + foreign_beat ? "2x22xx" : "x5x56x");
    }
    return comper.strum(2, 8, "3x34xx").change(2);
}

}  // namespace

TEST_CASE("in a bar of three among bars of four no fourth beat is missing") {
    const auto four = time_of_every_beat("four");
    CHECK(four.missing_strums == 0);
    REQUIRE(four.per_beat.size() == 4);
    CHECK(four.per_beat[2].strums.count == 4);
    CHECK(four.per_beat[3].strums.count == 3);
    const auto pattern = time_of_every_beat("1 4");
    CHECK(pattern.missing_strums == 0);
    REQUIRE(pattern.per_beat.size() == 2);
    CHECK(pattern.per_beat[1].strums.count == 3);
}

TEST_CASE("behind a bar of three the beats have their weight from their own bar line") {
    CHECK(with_foreign_strum(2).passing == 1);
    CHECK(with_foreign_strum(3).passing == 0);
    CHECK(with_foreign_strum(3).outside == 1);
}

TEST_CASE("a pattern stands in each bar as far as the bar goes") {
    // In bar 3 it is heard first on 2: the bar before has no 4.
    Comper comper(with_a_bar_of_three("Cmaj7 | Dm7 | G7 | %"), 120);
    comper.strum(1, 2, "x3x45x").strum(2, 2, "x5x56x").strum(2, 5, "3x34xx");
    const auto change = comper.change(3, tests::with_rhythm("2 4"));
    CHECK(change.verdict == assess::Verdict::on_time);
    CHECK(*change.beats_in == 1);
}
