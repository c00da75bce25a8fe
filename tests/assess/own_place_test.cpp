#include "support/catch.hpp"
#include "support/comper.hpp"

#include <vector>

using namespace compline;
using assess::Verdict;
using tests::Comper;

// Where a player stands beside the beat, and how exactly. 120 bpm: the tolerance is 50 ms.

namespace {

/// A chord that is struck again so often, each as late as its turn says, on beats or off-beats;
/// then a change.
Comper repeats(int count, const std::vector<double>& late, double change_late,
               bool off_beats = false) {
    Comper comper("Dm7 | % | % | % | % | % | % | % | G7", 120);
    comper.strum(1, 1, "x5x56x", off_beats ? 0 : late.front(), 0.4);
    for (int n = 1; n <= count; ++n) {
        const int place = off_beats ? n - 1 : n;
        comper.strum(1 + place / 4, 1 + place % 4 + (off_beats ? 0.5 : 0), "x5x56x",
                     late[static_cast<std::size_t>(n) % late.size()], 0.4);
    }
    comper.strum(9, 1, "3x34xx", change_late);
    return comper;
}

assess::Settings by_the_beat() {
    assess::Settings settings;
    settings.against = assess::Against::beat;
    return settings;
}

double milliseconds(const std::optional<time::Seconds>& place) {
    return place ? place->milliseconds() : 999;
}

}  // namespace

TEST_CASE("from twelve repeats on time reaches from the beat to where the player stands") {
    for (const double change : {-45.0, 0.0, 26.0, 74.0}) {
        const auto comper = repeats(12, {26}, change);
        INFO(change);
        CHECK(comper.change(2).verdict == Verdict::on_time);
        CHECK(comper.change(2).lateness->milliseconds() == Approx(change).margin(0.001));
    }
    CHECK(repeats(12, {26}, 80).change(2).verdict == Verdict::late);
    CHECK(repeats(12, {26}, -55).change(2).verdict == Verdict::early);
    const auto place = repeats(12, {26}, 0).judged().own_place;
    CHECK(place.told_apart);
    CHECK(milliseconds(place.on_beats) == Approx(26).margin(0.001));
    CHECK(repeats(12, {26}, 60).change(2, by_the_beat()).verdict == Verdict::late);
}

TEST_CASE("nobody's own place is further than 15 ms ahead or 40 behind") {
    CHECK(milliseconds(repeats(14, {55}, 0).judged().own_place.on_beats) == Approx(40));
    CHECK(milliseconds(repeats(14, {-28}, 0).judged().own_place.on_beats) == Approx(-15));
    CHECK(repeats(14, {55}, 88).change(2).verdict == Verdict::on_time);
    CHECK(repeats(14, {55}, 95).change(2).verdict == Verdict::late);
    CHECK(repeats(14, {-28}, -62).change(2).verdict == Verdict::on_time);
    CHECK(repeats(14, {-28}, -70).change(2).verdict == Verdict::early);
}

TEST_CASE("of fewer strums at most 25 ms are taken for a place, and a slow hand may be in it") {
    const auto few = repeats(11, {36}, 36).judged().own_place;
    CHECK(!few.told_apart);
    CHECK(milliseconds(few.on_beats) == Approx(25));
    CHECK(repeats(11, {36}, 72).change(2).verdict == Verdict::on_time);
    CHECK(repeats(11, {36}, 80).change(2).verdict == Verdict::late);
    CHECK(repeats(12, {36}, 80).change(2).verdict == Verdict::on_time);
    CHECK(repeats(11, {18}, 18).judged().own_place.on_beats->milliseconds() == Approx(18));
}

TEST_CASE("who stands there unevenly has no place of his own") {
    const std::vector<double> wide = {-14, 76};  // a standard deviation of 47 ms
    CHECK(!repeats(24, wide, 0).judged().own_place.on_beats);
    CHECK(repeats(24, wide, 0).judged().own_place.told_apart);
    std::vector<double> moves(12, 18);  // the first half, then the second
    moves.insert(moves.end(), 13, 38);
    CHECK(!repeats(24, moves, 0).judged().own_place.on_beats);
    std::vector<double> stays(12, 24);
    stays.insert(stays.end(), 13, 30);
    CHECK(repeats(24, stays, 0).judged().own_place.on_beats);
}

TEST_CASE("off-beats have a place of their own from twelve on, with fewer that of the beats") {
    const auto with_off_beats = [](int count) {
        Comper comper("Dm7 | % | % | % | % | % | % | % | G7", 120);
        for (int n = 0; n < 16; ++n) comper.strum(1 + n / 4, 1 + n % 4, "x5x56x", 10, 0.3);
        for (int n = 0; n < count; ++n) comper.strum(1 + n / 4, 1.5 + n % 4, "x5x56x", 30, 0.3);
        return comper.strum(9, 1, "3x34xx").judged().own_place;
    };
    CHECK(milliseconds(with_off_beats(12).off_beats) == Approx(30).margin(0.001));
    CHECK(milliseconds(with_off_beats(12).on_beats) == Approx(10).margin(0.001));
    CHECK(milliseconds(with_off_beats(11).off_beats) == Approx(10).margin(0.001));
}

TEST_CASE("a hand that scatters widens the tolerance, from twelve repeats on and to 60 ms") {
    const std::vector<double> scatter = {-22, 22};
    CHECK(repeats(16, scatter, 0).judged().tolerance.milliseconds() ==
          Approx(2.5 * 22.7).margin(0.3));
    CHECK(repeats(11, scatter, 0).judged().tolerance.milliseconds() == Approx(50).margin(0.001));
    CHECK(repeats(16, {-40, 40}, 0).judged().tolerance.milliseconds() == Approx(60).margin(0.001));
    CHECK(repeats(16, {-4, 4}, 0).judged().tolerance.milliseconds() == Approx(50).margin(0.001));
    CHECK(repeats(16, scatter, 55).change(2).verdict == Verdict::on_time);
    // What was asked for stands.
    assess::Settings strict;
    strict.tolerance = time::Seconds(0.030);
    CHECK(repeats(16, scatter, 0).judged(strict).tolerance.milliseconds() == Approx(30));
}
