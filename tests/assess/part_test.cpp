// Some bars of what was played, and several takes taken for one.

#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/assess/together.hpp>

#include <algorithm>
#include <set>

using namespace compline;
using namespace compline::assess;
using namespace compline::tests;

namespace {

/// Eight bars, three times through; bar 2 is late each time, bar 6 has a foreign tone, and in bar 5
/// the old chord is struck on.
Comper eight_bars_thrice() {
    Comper comper("Cmaj7 | A7 | Dm7 | G7 | Cmaj7 | A7 | Dm7 | G7", 120);
    comper.times(3);
    for (int time = 0; time < 3; ++time) {
        const int bar = time * 8;
        comper.strum(bar + 1, 1, "x324xx").strum(bar + 2, 1, "5x56xx", 90);
        comper.strum(bar + 3, 1, "x5756x").strum(bar + 4, 1, "3x34xx");
        comper.strum(bar + 5, 1, "3x34xx").strum(bar + 6, 1, "5x57xx");
        comper.strum(bar + 7, 1, "x5756x").strum(bar + 8, 1, "3x34xx", 4);
    }
    return comper;
}

Settings only(int from, int to) {
    Settings settings;
    settings.part = chart::Passage{from, to};
    return settings;
}

std::vector<Change> within(std::vector<Change> changes, chart::Passage part) {
    std::erase_if(changes, [&](const Change& change) {
        return change.bar < part.from || change.bar > part.to;
    });
    return changes;
}

bool same(const std::vector<Change>& a, const std::vector<Change>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const auto& x, const auto& y) {
        return x.time_through == y.time_through && x.bar == y.bar && x.verdict == y.verdict &&
               x.lateness == y.lateness && x.tones == y.tones;
    });
}

}  // namespace

TEST_CASE("a part of the form is judged as in the whole, and nothing else is counted") {
    const auto comper = eight_bars_thrice();
    const auto all = comper.judged();
    const auto part = comper.judged(only(1, 4));
    CHECK(same(part.changes, within(all.changes, {1, 4})));
    CHECK(part.totals.changes == 12);
    CHECK(part.totals.count(Verdict::late) == all.totals.count(Verdict::late));
    CHECK(part.time.all.count == 12);
    for (const auto& strum : part.strums) CHECK(strum.bar <= 4);
    CHECK(part.strums.size() == 12);
    REQUIRE(part.weakest);
    CHECK(part.weakest->from_bar == 1);
    CHECK(part.weakest->to_bar == 4);
    REQUIRE(all.weakest);
    CHECK(all.weakest->to_bar > 4);
    CHECK(part.settled <= part.changes.size());
}

TEST_CASE("what a rhythm asks for beyond the part is not missing in it") {
    Settings four = only(5, 8);
    four.rhythm = assess::read_rhythm("four", time::Meter(4));
    const auto part = eight_bars_thrice().judged(four);
    CHECK(part.time.missing_strums == 3 * 4 * 3);
    four.part.reset();
    CHECK(eight_bars_thrice().judged(four).time.missing_strums == 2 * 3 * 4 * 3);
}

TEST_CASE("a stretch astray keeps what of it lies within the part") {
    Comper comper("Cmaj7 | A7 | Dm7 | G7 | Ebmaj7 | Ab7 | Bm7 | E7 | Fmaj7 | B7 | Gm7 | C7", 120);
    const std::vector<std::string> grips = {"x324xx", "5x56xx", "x5756x", "3x34xx",
                                            "x657xx", "4x45xx", "7x77xx", "x767xx",
                                            "1x22xx", "x212xx", "3x33xx", "x323xx"};
    for (int bar = 1; bar <= 11; ++bar) {
        const bool ahead = bar >= 4 && bar <= 9;
        comper.strum(bar, 1, grips.at(static_cast<std::size_t>(bar - 1 + (ahead ? 1 : 0))));
    }
    const auto all = comper.judged();
    REQUIRE(all.astray.size() == 1);
    const auto part = comper.judged(only(6, 12));
    REQUIRE(part.astray.size() == 1);
    CHECK(part.astray[0].from_bar == 6);
    CHECK(part.astray[0].to_bar == all.astray[0].to_bar);
    CHECK(part.astray[0].changes == part.totals.count(Verdict::astray));
    CHECK(comper.judged(only(1, 3)).astray.empty());
}

TEST_CASE("takes together have the sums of their parts, and the weakest bars of them all") {
    const auto first = eight_bars_thrice().judged();
    const auto second = eight_bars_thrice().judged(only(5, 8));
    const std::vector<OneOfAll> all = {{&first, 0, 0, time::Seconds(0)},
                                       {&second, 3, 24, time::Seconds(100)}};
    const auto whole = together(all, {1, 8});
    CHECK(whole.totals.changes == first.totals.changes + second.totals.changes);
    CHECK(whole.totals.right_tones == first.totals.right_tones + second.totals.right_tones);
    CHECK(whole.changes.size() == first.changes.size() + second.changes.size());
    CHECK(whole.changes.back().time_through == 6);
    CHECK(whole.changes.back().at == second.changes.back().at + time::Seconds(100));
    CHECK(whole.time.all.count == first.time.all.count + second.time.all.count);
    // Bars 5 and 6 are bad in both.
    REQUIRE(whole.weakest);
    CHECK(whole.weakest->cost > first.weakest->cost);
    CHECK(whole.weakest->to_bar >= 6);
    const std::vector<OneOfAll> twice = {{&first, 0, 0, time::Seconds(0)},
                                         {&first, 3, 24, time::Seconds(100)}};
    CHECK(together(twice, {1, 8}).weakest->cost == Approx(2 * first.weakest->cost));
}

TEST_CASE("the spread of strums of two takes is that of one with all of them") {
    Comper one("C6 | C6", 120);
    Comper other("C6 | C6", 120);
    one.strum(1, 1, "x322xx", 10).strum(1, 2, "x322xx", -6).strum(2, 1, "x322xx", 0);
    other.strum(1, 1, "x322xx", 20).strum(2, 2, "x322xx", 25);
    const auto first = one.judged();
    const auto second = other.judged();
    const std::vector<OneOfAll> all = {{&first, 0, 0, time::Seconds(0)},
                                       {&second, 1, 2, time::Seconds(4)}};
    const auto spread = together(all, {1, 2}).time.all;
    CHECK(spread.count == 5);
    CHECK(*spread.mean_ms == Approx((10 - 6 + 0 + 20 + 25) / 5.0));
    CHECK(*spread.sd_ms == Approx(13.0461).margin(0.001));  // of 10, -6, 0, 20, 25
}
