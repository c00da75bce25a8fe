#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"

#include <string>

using namespace compline;
using assess::Verdict;
using tests::Comper;
using tests::is_clean;
using tests::said;

// Chords in parentheses, which a player may leave out. At 132 bpm, in even eighths.

namespace {

const char* const turnaround = "C6 | C6 (A7) | Dm7 | G7";

/// C6 in the first bar; what is played in the second is the test's; then Dm7 and G7 on their beats.
Comper around(const std::string& bars = turnaround) {
    Comper comper(bars, 132);
    comper.strum(1, 1, "8x79xx", 0, 3.5);
    return comper;
}

Comper& and_on(Comper& comper) {
    return comper.strum(3, 1, "x5x56x", 0, 3.5).strum(4, 1, "3x34xx", 0, 3.5);
}

}  // namespace

TEST_CASE("a chord in parentheses that is played is judged as any other") {
    auto right = around();
    and_on(right.strum(2, 1, "8x79xx", 0, 1.8).strum(2, 3, "5x56xx", 0, 1.8));
    CHECK(right.verdicts() == "on_time on_time on_time on_time");
    CHECK(is_clean(right.judged()));
    auto late = around();
    and_on(late.strum(2, 1, "8x79xx", 0, 1.8).strum(2, 3, "5x56xx", 130, 1.5));
    CHECK(said(late.change(2)) == "late +130 at 0");
    auto slipped = around();
    and_on(slipped.strum(2, 1, "8x79xx", 0, 1.8).strum(2, 3, "5x66xx", 0, 1.8));
    CHECK(slipped.change(2).tones == assess::Tones::wrong);
}

TEST_CASE("a chord in parentheses is held where the chord before rings on or is struck on") {
    auto rings = around();
    and_on(rings.strum(2, 1, "8x79xx", 0, 3.8));
    CHECK(rings.verdicts() == "on_time held on_time on_time");
    CHECK(is_clean(rings.judged()));
    CHECK(rings.change(2).tones == assess::Tones::right);
    auto in_four = around();
    for (const double beat : {1.0, 2.0, 3.0, 4.0}) in_four.strum(2, beat, "8x79xx", 0, 0.8);
    and_on(in_four);
    CHECK(in_four.verdicts() == "on_time held on_time on_time");
    CHECK(is_clean(in_four.judged()));
    CHECK(in_four.change(1).outside == 0);
    auto elsewhere = around();  // the same chord in another grip
    and_on(elsewhere.strum(2, 1, "8x79xx", 0, 1.8).strum(2, 3, "x3x25x", 0, 1.8));
    CHECK(elsewhere.verdicts() == "on_time held on_time on_time");
    CHECK(is_clean(elsewhere.judged()));
    auto four_to_the_bar = Comper(turnaround, 132);
    for (int bar = 1; bar <= 2; ++bar) {
        for (int beat = 1; beat <= 4; ++beat) four_to_the_bar.strum(bar, beat, "8x79xx", 0, 0.8);
    }
    for (int beat = 1; beat <= 4; ++beat) four_to_the_bar.strum(3, beat, "x5x56x", 0, 0.8);
    for (int beat = 1; beat <= 4; ++beat) four_to_the_bar.strum(4, beat, "3x34xx", 0, 0.8);
    CHECK(four_to_the_bar.verdicts(tests::with_rhythm("four")) == "on_time held on_time on_time");
}

TEST_CASE("a chord in parentheses is laid out where nothing sounds, and that is no habit") {
    auto silent = around();
    and_on(silent.strum(2, 1, "8x79xx", 0, 1));
    CHECK(silent.verdicts() == "on_time laid_out on_time on_time");
    CHECK(is_clean(silent.judged()));
    Comper often(turnaround, 132);
    often.times(4);
    for (int time = 0; time < 4; ++time) {
        const int bar = 4 * time + 1;
        often.strum(bar, 1, "8x79xx", 0, 3.5).strum(bar + 1, 1, "8x79xx", 0, 1);
        often.strum(bar + 2, 1, "x5x56x", 0, 3.5).strum(bar + 3, 1, "3x34xx", 0, 3.5);
    }
    const auto judged = often.judged();
    CHECK(is_clean(judged));
    CHECK(judged.changes.at(5).verdict == Verdict::laid_out);
    CHECK(!judged.changes.at(5).left_out);
}

TEST_CASE("another chord in the place of one in parentheses is wrong") {
    auto comper = around();
    and_on(comper.strum(2, 1, "8x79xx", 0, 1.8).strum(2, 3, "6x67xx", 0, 1.8));
    CHECK(comper.change(2).cost() > 0);
    CHECK(comper.change(1).cost() == 0);
    CHECK(comper.change(3).cost() == 0);
}

TEST_CASE("without its parentheses a chord that is left out is missed") {
    auto comper = around("C6 | C6 A7 | Dm7 | G7");
    for (const double beat : {1.0, 2.0, 3.0, 4.0}) comper.strum(2, beat, "8x79xx", 0, 0.8);
    and_on(comper);
    CHECK(comper.change(2).verdict == Verdict::missed);
}

TEST_CASE("the chord before goes on through two in parentheses, or into the first of them") {
    Comper through("C6 | (Dm7 G7) | C6 | F6", 132);
    for (const int bar : {1, 2, 3}) {
        for (const double beat : {1.0, 2.0, 3.0, 4.0}) through.strum(bar, beat, "8x79xx", 0, 0.8);
    }
    through.strum(4, 1, "x8x7x10", 0, 3);
    CHECK(through.verdicts().rfind("on_time held held on_time", 0) == 0);
    Comper first("C6 | (Dm7 G7) | C6", 132);
    first.strum(1, 1, "8x79xx", 0, 3.5).strum(2, 1, "x5x56x", 0, 3.5).strum(3, 1, "8x79xx", 0, 3.5);
    CHECK(first.verdicts() == "on_time on_time held on_time");
    CHECK(is_clean(first.judged()));
}

TEST_CASE("behind a chord in parentheses that is left out the next may be pushed") {
    auto comper = around();
    comper.strum(2, 1, "8x79xx", 0, 3.3).strum(2, 4.5, "x5x56x", 0, 3.5);
    comper.strum(4, 1, "3x34xx", 0, 3.5);
    CHECK(comper.verdicts() == "on_time held pushed on_time");
}
