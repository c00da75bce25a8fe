#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"

#include <fmt/format.h>

using namespace compline;
using assess::Verdict;
using tests::Comper;
using tests::said;

// When a chord landed. At 132 bpm a beat is 455 ms, the tolerance 42; swung at 2.58:1 the off-beat
// comes 328 ms after the beat, the straight one 227.

namespace {

/// G7 after a Dm7 that was let go, so many ms from a beat of its bar.
assess::Change landed(double beat, double late) {
    Comper comper("Dm7 | G7", 132);
    comper.swing(2.58).strum(1, 1, "x5x56x").strum(1, 2, "x5x56x").strum(1, 3, "x5x56x");
    comper.strum(2, beat, "3x34xx", late);
    return comper.change(2);
}

}  // namespace

TEST_CASE("let in on a later beat or swung off-beat a chord is placed there, a little off or not") {
    for (const double late : {-38.0, 0.0, 12.0, 38.0}) {
        for (const double beat : {1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 4.5}) {
            INFO("beat " << beat << ", late " << late);
            CHECK(said(landed(beat, late)) ==
                  fmt::format("placed {:+.0f} at {:g}", late + 0.0, beat - 1));
            CHECK(landed(beat, late).cost() == 0);
        }
    }
}

TEST_CASE("from the straight to the swung off-beat nothing is placed") {
    for (const double ahead : {-100.0, -80.0, -60.0, -48.0}) {
        INFO(ahead);
        CHECK(landed(1.5, ahead).verdict == Verdict::late);
        CHECK(landed(2.5, ahead).verdict == Verdict::late);
    }
}

TEST_CASE("late is measured from the change within the first beat, then from the last grid point") {
    CHECK(said(landed(1, 60)) == "late +60 at 0");
    CHECK(said(landed(1, 130)) == "late +130 at 0");
    CHECK(said(landed(1, 230)) == "late +230 at 0");
    CHECK(said(landed(1, 390)) == "late +390 at 0");  // past the off-beat, within the first beat
    CHECK(said(landed(2, 60)) == "late +60 at 1");
    CHECK(said(landed(2, 200)) == "late +200 at 1");
    CHECK(said(landed(2.5, 60)) == "late +60 at 1.5");
    CHECK(said(landed(4, 100)) == "late +100 at 3");
}

TEST_CASE("of this player's own off-beats, from six on, one is as good as the feel's") {
    const auto with_off_beats = [](int count) {
        Comper comper("Dm7 | % | % | % | G7 | Cmaj7", 132);
        comper.swing(2.58).strum(1, 1, "x5x56x");
        for (int n = 0; n < count; ++n) comper.strum(1 + n / 2, 2.5 + n % 2, "x5x56x", -75, 0.3);
        comper.strum(5, 2.5, "3x34xx", -75, 0.5).strum(6, 1, "x3x45x");
        return comper.change(2);
    };
    CHECK(with_off_beats(7).verdict == Verdict::placed);
    CHECK(with_off_beats(6).verdict == Verdict::placed);
    CHECK(with_off_beats(6).beats_in == 1.5);
    CHECK(with_off_beats(5).verdict == Verdict::late);
    CHECK(with_off_beats(0).verdict == Verdict::late);
}

TEST_CASE("a little ahead of a beat where this player lands by habit is placed on that beat") {
    for (const double ahead : {-50.0, -80.0, -105.0}) {
        Comper habit("Dm7 | G7 | Cmaj7 | A7", 132);
        habit.strum(1, 2, "x5x56x").strum(2, 2, "3x34xx").strum(3, 2, "x3x45x");
        habit.strum(4, 2, "5x56xx", ahead);
        INFO(ahead);
        CHECK(said(habit.change(4)) == fmt::format("placed {:+.0f} at 1", ahead));
        Comper none("Dm7 | G7 | Cmaj7 | A7", 132);
        none.strum(1, 1, "x5x56x").strum(2, 1, "3x34xx").strum(3, 1, "x3x45x");
        none.strum(4, 2, "5x56xx", ahead);
        CHECK(said(none.change(4)) == fmt::format("late {:+.0f} at 0", 60000 / 132.0 + ahead));
    }
    // More than a quarter of a beat ahead it is late after all.
    Comper far("Dm7 | G7 | Cmaj7 | A7", 132);
    far.strum(1, 2, "x5x56x")
        .strum(2, 2, "3x34xx")
        .strum(3, 2, "x3x45x")
        .strum(4, 2, "5x56xx", -130);
    CHECK(far.change(4).verdict == Verdict::late);
}

TEST_CASE("the old chord ringing on, or struck on, makes a later beat late") {
    const auto after = [](double ring, bool struck_on) {
        Comper comper("Dm7 | F#m7", 120);
        comper.strum(1, 1, "x5x56x", 0, ring);
        if (struck_on) comper.strum(2, 1, "x5x56x", 0, 0.9);
        comper.strum(2, 2, "2x22xx");
        return said(comper.change(2));
    };
    CHECK(after(3.5, false) == "placed +0 at 1");
    CHECK(after(4.2, false) == "placed +0 at 1");  // a moment over
    CHECK(after(4.6, false) == "late +500 at 0");
    CHECK(after(5.0, false) == "late +500 at 0");
    CHECK(after(3.5, true) == "late +500 at 0");
    // Open strings may die away.
    Comper open("Am7 | Ebmaj7", 120);
    open.strum(1, 1, "xx2x1x", 0, 3).strum(1, 1, "x0xxx0", 0, 5).strum(2, 2, "x6878x");
    CHECK(said(open.change(2)) == "placed +0 at 1");
}

TEST_CASE("a push by a whole beat counts where the player does so more than once") {
    Comper once("Dm7 | G7 | Cmaj7", 120);
    once.strum(1, 1, "x5x56x", 0, 1).strum(1, 4, "3x34xx", 5, 2).strum(3, 1, "x3x45x");
    CHECK(once.change(2).verdict == Verdict::early);
    Comper twice("Dm7 | G7 | Cmaj7", 120);
    twice.strum(1, 1, "x5x56x", 0, 1).strum(1, 4, "3x34xx", 5, 2).strum(2, 4, "x3x45x", 5);
    CHECK(said(twice.change(2)) == "pushed +5 at -1");
    CHECK(said(twice.change(3)) == "pushed +5 at -1");
}

TEST_CASE("a push that comes late is early, and measured from where it should have been") {
    for (const double late : {70.0, 100.0, 120.0}) {
        Comper comper("Dm7 | G7", 120);
        comper.strum(1, 1, "x5x56x", 0, 1).strum(1, 4.5, "3x34xx", late, 2);
        INFO(late);
        CHECK(said(comper.change(2)) == fmt::format("early {:+.0f} at -0.5", late));
    }
    Comper ahead("Dm7 | G7", 120);  // ahead of the beat, and no push
    ahead.strum(1, 1, "x5x56x", 0, 1).strum(2, 1, "3x34xx", -80, 2);
    CHECK(said(ahead.change(2)) == "early -80 at 0");
}

TEST_CASE("in four to the bar, and on a pattern, nothing is placed") {
    Comper comper("Dm7 | G7", 120);
    comper.strum(1, 1, "x5x56x").strum(2, 2, "3x34xx");
    CHECK(said(comper.change(2)) == "placed +0 at 1");
    CHECK(said(comper.change(2, tests::with_rhythm("four"))) == "late +500 at 0");
    CHECK(comper.change(2, tests::with_rhythm("1 3")).verdict == Verdict::late);
}
