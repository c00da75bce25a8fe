#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"

#include <array>

using namespace compline;
using assess::Tones;
using assess::Verdict;
using tests::Comper;
using tests::said;

// What a place is over all times through, and what counts in no total.

namespace {

constexpr std::array grips{"x5x56x", "3x34xx", "x3x45x", "5x56xx"};
constexpr int times_through = 6;

/// Six times through four chords, each on its beat; what becomes of the second (bar 2) is up to
/// `second`, given which time through it is.
template <typename Second>
Comper six_times(Second second) {
    Comper comper("Dm7 | G7 | Cmaj7 | A7", 120);
    comper.times(times_through);
    for (int time = 1; time <= times_through; ++time) {
        for (int bar = 1; bar <= 4; ++bar) {
            const int played = 4 * (time - 1) + bar;
            if (bar != 2) comper.strum(played, 1, grips[static_cast<std::size_t>(bar - 1)], 3);
            if (bar == 2) second(comper, time, played);
        }
    }
    return comper;
}

}  // namespace

TEST_CASE("a place that is placed most times while its neighbours are on their beat is a wait") {
    const auto comper = six_times(
        [](Comper& hand, int time, int bar) { hand.strum(bar, time == 4 ? 1 : 2, grips[1], 3); });
    const auto judged = comper.judged();
    for (const auto& change : judged.changes) {
        const bool waits = change.bar == 2 && change.time_through != 4;
        INFO(change.time_through << " " << change.bar);
        CHECK(change.verdict == (waits ? Verdict::placed : Verdict::on_time));
        CHECK(change.wait == waits);
        CHECK(change.cost() == Approx(waits ? 0.25 : 0));
    }
}

TEST_CASE("placed half of the times, or placed like everything else, is no wait") {
    const auto seldom = six_times(
        [](Comper& hand, int time, int bar) { hand.strum(bar, time <= 3 ? 2 : 1, grips[1], 3); });
    CHECK(seldom.judged().totals.count(Verdict::placed) == 3);
    CHECK(tests::is_clean(seldom.judged()));
    Comper all("Dm7 | G7 | Cmaj7 | A7", 120);
    all.times(times_through);
    for (int bar = 1; bar <= 4 * times_through; ++bar) {
        all.strum(bar, 2, grips[static_cast<std::size_t>((bar - 1) % 4)], 3);
    }
    CHECK(all.judged().totals.count(Verdict::placed) == 4 * times_through);
    CHECK(tests::is_clean(all.judged()));
}

TEST_CASE("a transition that is placed wherever it comes is a wait, at each of its places") {
    Comper comper("Dm7 | G7 | Em7 | Am7 | Dm7 | G7 | Em7 | Am7 | Dm7 | G7 | Cmaj7 | A7", 120);
    const std::array all{"x5x56x", "3x34xx", "x7x78x", "5x55xx", "x5x56x", "3x34xx",
                         "x7x78x", "5x55xx", "x5x56x", "3x34xx", "x3x45x", "5x56xx"};
    for (int bar = 1; bar <= 12; ++bar) {
        comper.strum(bar, bar % 4 == 2 ? 2 : 1, all[static_cast<std::size_t>(bar - 1)]);
    }
    for (const auto& change : comper.judged().changes) {
        INFO(change.bar);
        CHECK(change.wait == (change.bar % 4 == 2));
    }
}

TEST_CASE("a place laid out most times is left out, and costs nothing") {
    const auto comper = six_times([](Comper& hand, int time, int bar) {
        if (time == 3) hand.strum(bar, 1, grips[1], 3);
    });
    for (const auto& change : comper.judged().changes) {
        const bool left_out = change.bar == 2 && change.time_through != 3;
        INFO(change.time_through << " " << change.bar);
        CHECK(change.verdict == (left_out ? Verdict::laid_out : Verdict::on_time));
        CHECK(change.left_out == left_out);
        CHECK(change.cost() == 0);
    }
    const auto once = six_times([](Comper& hand, int time, int bar) {
        if (time != 3) hand.strum(bar, 1, grips[1], 3);
    });
    CHECK(once.judged().totals.count(Verdict::laid_out) == 1);
    for (const auto& change : once.judged().changes) CHECK(!change.left_out);
}

TEST_CASE("what costs how much") {
    const auto cost = [](Verdict verdict, double late_ms, Tones tones) {
        assess::Change change;
        change.verdict = verdict;
        if (verdict != Verdict::missed) change.lateness = time::from_milliseconds(late_ms);
        change.tones = tones;
        return change.cost();
    };
    CHECK(cost(Verdict::on_time, 30, Tones::right) == 0);
    CHECK(cost(Verdict::placed, 30, Tones::right) == 0);
    CHECK(cost(Verdict::pushed, -30, Tones::right) == 0);
    CHECK(cost(Verdict::late, 100, Tones::right) == Approx(0.5));
    CHECK(cost(Verdict::early, -60, Tones::right) == Approx(0.3));
    CHECK(cost(Verdict::late, 350, Tones::right) == Approx(1));
    CHECK(cost(Verdict::late, 100, Tones::wrong) == Approx(1));
    CHECK(cost(Verdict::on_time, 0, Tones::incomplete) == Approx(0.25));
    CHECK(cost(Verdict::missed, 0, Tones::none) == 1);
    CHECK(cost(Verdict::astray, 20, Tones::right) == 1);
}

TEST_CASE("a tone may come until half of the chord is over, or with its next strum") {
    const auto opened = [](double next, double after) {
        Comper comper("Cmaj7 | G7 | Cmaj7", 120);
        comper.strum(1, 1, "x3x45x").strum(2, 1, "3x543x");  // without its seventh
        if (after > 0) comper.strum(2, next, "3x543x").strum(2, after, "3x343x");
        if (after == 0) comper.strum(2, next, "3x343x");
        comper.strum(3, 1, "x3x45x");
        return said(comper.change(2));
    };
    CHECK(opened(2, 0) == "on_time +0 at 0");
    CHECK(opened(2, 3) == "on_time +0 at 0");
    CHECK(opened(4, 0) == "on_time +0 at 0");  // its next strum, however late
    CHECK(opened(2, 4) == "on_time +0 at 0, incomplete");
    CHECK(opened(4, 4.5) == "on_time +0 at 0, incomplete");
}

TEST_CASE("uncertain changes are in no total and in no weakest bars") {
    Comper comper("Dm7 | G7 | Cmaj7 | A7", 132);
    for (int bar = 1; bar <= 4; ++bar) {
        comper.strum(bar, 1, grips[static_cast<std::size_t>(bar - 1)],
                     bar == 2 || bar == 3 ? 90 : 0);
    }
    CHECK(comper.judged().totals.count(Verdict::late) == 2);
    REQUIRE(comper.judged().weakest);
    comper.interrupted(2, 3.2);
    const auto judged = comper.judged();
    CHECK(judged.changes[1].uncertain);
    CHECK(judged.changes[2].uncertain);
    CHECK(judged.totals.changes == 2);
    CHECK(judged.totals.uncertain == 2);
    CHECK(judged.totals.count(Verdict::late) == 0);
    CHECK(judged.totals.right_tones == 2);
    CHECK(!judged.weakest);
}
