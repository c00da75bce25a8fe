#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"
#include "support/twelve_bars.hpp"

using namespace compline;
using assess::Verdict;
using tests::Comper;
using tests::shell;

// A player who is elsewhere in the form plays other chords, and plays them well.

namespace {

/// Twelve bars, a chord in each; from bar `from` to bar `to` the player is so many bars further on.
Comper lost(int from, int to, int ahead, double late = 0) {
    Comper comper(tests::twelve_bars, 120);
    for (int bar = 1; bar <= 12; ++bar) {
        const bool there = bar < from || bar > to;
        comper.strum(bar, 1, shell(there ? bar : bar + ahead), there ? 0 : late);
    }
    return comper;
}

/// All that is lost is astray, in one stretch, and nothing else is at fault.
void check_stretch(const assess::Assessment& judged, int from, int to, double bars_on) {
    REQUIRE(judged.astray.size() == 1);
    CHECK(judged.astray[0].from_bar == from);
    CHECK(judged.astray[0].to_bar == to);
    CHECK(judged.astray[0].bars == Approx(bars_on));
    CHECK(judged.astray[0].changes == judged.totals.count(Verdict::astray));
    for (const auto& change : judged.changes) {
        const bool there = change.bar < from || change.bar > to;
        INFO(change.bar << " " << tests::said(change));
        CHECK(change.verdict == (there ? Verdict::on_time : Verdict::astray));
        CHECK(change.tones == assess::Tones::right);
        CHECK(change.cost() == (there ? 0 : 1));
        CHECK(change.meant.has_value() == !there);
    }
}

}  // namespace

TEST_CASE("two changes in a row or more, a bar or two ahead or behind, are astray") {
    for (const int ahead : {1, -1, 2, -2}) {
        for (int length = 2; length <= 6; ++length) {
            INFO(length << " bars, " << ahead << " ahead");
            check_stretch(lost(5, 4 + length, ahead).judged(), 5, 4 + length, ahead);
        }
    }
}

TEST_CASE("what was played astray is judged against the chord that was meant") {
    const auto judged = lost(4, 7, 1, 40).judged();
    REQUIRE(judged.changes[3].meant);
    CHECK(judged.changes[3].to.symbol() == "C7");
    CHECK(judged.changes[3].meant->symbol() == "B♭m7");
    CHECK(judged.changes[3].lateness->milliseconds() == Approx(40).margin(0.001));
    CHECK(judged.changes[3].wrong.empty());
    CHECK(judged.totals.count(Verdict::astray) == 4);
    CHECK(judged.totals.count(Verdict::on_time) == 8);
    REQUIRE(judged.weakest);
    CHECK(judged.weakest->cost == Approx(4));
}

TEST_CASE("a lone wrong chord is not astray") {
    for (const int ahead : {1, -1}) {
        for (int bar = 3; bar <= 10; ++bar) {
            const auto judged = lost(bar, bar, ahead).judged();
            INFO(bar << " " << ahead);
            CHECK(judged.astray.empty());
            CHECK(judged.totals.count(Verdict::astray) == 0);
            CHECK(judged.totals.count(Verdict::on_time) >= 11);
            CHECK(judged.changes[static_cast<std::size_t>(bar - 1)].cost() > 0);
        }
    }
}

TEST_CASE("astray by a change where chords are of unlike lengths") {
    Comper comper("Dm7 | % | Ab7 | F#m7 C7 | Bbm7 | % | E7 Ebm7 | B7 | Gm7 | Db7", 120);
    // Each chord is struck where one is due; from Ab7 on it is the one after, up to E7.
    comper.strum(1, 1, shell(1)).strum(3, 1, shell(3)).strum(4, 1, shell(4)).strum(4, 3, shell(5));
    comper.strum(5, 1, shell(6)).strum(7, 1, shell(6)).strum(7, 3, shell(7)).strum(8, 1, shell(8));
    comper.strum(9, 1, shell(9)).strum(10, 1, shell(10));
    const auto judged = comper.judged();
    CHECK(comper.verdicts() ==
          "on_time astray astray astray astray on_time on_time on_time on_time on_time");
    CHECK_FALSE(judged.astray.empty());
}

TEST_CASE("astray by two beats: the second chord of the bar where the first is due") {
    Comper comper("Dm7 Ab7 | F#m7 C7 | Bbm7 E7 | Ebm7 B7 | Gm7 Db7 | Am7 F7", 120);
    for (int chord = 1; chord <= 12; ++chord) {
        const bool there = chord < 4 || chord > 9;
        comper.strum(1 + (chord - 1) / 2, chord % 2 == 1 ? 1 : 3, shell(there ? chord : chord + 1));
    }
    const auto judged = comper.judged();
    REQUIRE(judged.astray.size() == 1);
    CHECK(judged.astray[0].changes == 6);
    CHECK(judged.astray[0].bars == Approx(0.5));
    CHECK(judged.totals.count(Verdict::on_time) == 6);
}

TEST_CASE("astray in another section: the first ending where the bridge has begun") {
    const auto form = tests::form_of(
        {{"A", "Dm7 | Ab7 | F#m7 | C7"}, {"B", "Bbm7 | E7 | Ebm7 | B7"}}, "A, A, B, A");
    Comper comper(form, 120);
    for (int bar = 1; bar <= 16; ++bar) {
        const bool bridge = bar >= 9 && bar <= 12;
        const bool lost = bar >= 9 && bar <= 11;  // the A once more, up to the third bar
        comper.strum(bar, 1, shell(bridge && !lost ? bar - 4 : (bar - 1) % 4 + 1));
    }
    const auto judged = comper.judged();
    REQUIRE(judged.astray.size() == 1);
    CHECK(judged.astray[0].from_bar == 9);
    CHECK(judged.astray[0].to_bar == 11);
    CHECK(judged.totals.count(Verdict::astray) == 3);
    CHECK(judged.totals.count(Verdict::on_time) == 13);
    CHECK(judged.changes[8].meant->symbol() == "Dm7");
}
