#include "support/catch.hpp"
#include "support/comper.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>
#include <vector>

using namespace compline;
using assess::Verdict;
using tests::Comper;

// Neighbours that share their tones: nothing but the strum tells when the change came. Strums from
// 200 ms early to 200 ms late, in steps, after each way to play the chord before.

namespace {

struct Neighbours {
    const char* bars;
    const char* first;
    const char* other_first;  // the old chord in another inversion
    const char* second;       // a new voicing
};
const Neighbours neighbours[] = {{"C6 | Am7", "x3221x", "8x798x", "5x555x"},
                                 {"Ebmaj7 | Cm7", "x6878x", "xx5546", "8x888x"},
                                 {"Dm7 | F6", "x5756x", "xx0211", "1x021x"},
                                 {"Bdim7 | Ddim7", "x2313x", "7x676x", "x5646x"}};

const std::vector<std::vector<double>> ways = {
    {1}, {1, 3}, {1, 2, 3, 4}, {1, 2.5, 3.5}, {1, 2.5, 4}};

/// One strum of the new chord, some ms off its beat, and where it stands among the grid.
struct Strum {
    double late, beat, short_note, tolerance;
    double old_until = 0;  ///< how long after the change the old chord is held

    [[nodiscard]] bool old_rings_on() const { return old_until > std::max(120.0, beat / 4); }

    [[nodiscard]] bool on_time() const { return std::fabs(late) <= tolerance; }
    [[nodiscard]] bool in_push() const {
        return late >= -beat / 2 - tolerance && late <= -short_note + tolerance;
    }
    /// From the swung off-beat of the beat it falls in.
    [[nodiscard]] double off_the_off_beat() const { return late - (beat - short_note); }
    [[nodiscard]] bool in_off_beat() const { return std::fabs(off_the_off_beat()) <= tolerance; }
};

void check(const assess::Change& change, const Strum& strum, bool four) {
    const double lateness = change.lateness ? change.lateness->milliseconds() : 1e9;
    REQUIRE(change.lateness.has_value());  // neither missed nor held nor laid out
    if (strum.on_time()) {
        CHECK(change.verdict == Verdict::on_time);
        CHECK(lateness == Approx(strum.late).margin(0.001));
    } else if (strum.late > 0 && four) {
        CHECK(change.verdict == Verdict::late);
        CHECK(lateness == Approx(strum.late).margin(0.001));
    } else if (strum.late > 0) {
        const bool placed = strum.in_off_beat() && !strum.old_rings_on();
        const double off = placed ? strum.off_the_off_beat() : strum.late;
        CHECK(change.verdict == (placed ? Verdict::placed : Verdict::late));
        CHECK(lateness == Approx(off).margin(0.001));
    } else if (strum.in_push()) {
        CHECK(change.verdict == Verdict::pushed);
        CHECK(lateness == Approx(strum.late + strum.short_note).margin(0.001));
    } else {
        // Ahead of the push it is early for the beat; after it, for whichever is nearer.
        const double off_push = strum.late + strum.short_note;
        const bool late_push = off_push > 0 && off_push < -strum.late;
        CHECK(change.verdict == Verdict::early);
        CHECK(lateness == Approx(late_push ? off_push : strum.late).margin(0.001));
    }
}

}  // namespace

TEST_CASE("chords that share their notes: no strum from 200 ms early to 200 ms late is misjudged") {
    int cases = 0;
    for (const auto& pair : neighbours) {
        for (const double tempo : {80.0, 120.0, 160.0, 200.0}) {
            for (std::size_t way = 0; way < ways.size(); ++way) {
                for (double late = -200; late <= 200; late += 12.5) {
                    const bool swung = cases % 2 == 0;
                    const double ring = cases % 3 == 0 ? 0.5 : cases % 3 == 1 ? 1.0 : 5.0;
                    // The same grip again, or another.
                    const std::string grip = cases % 5 == 0 ? pair.first : pair.second;
                    ++cases;
                    Comper comper(pair.bars, tempo);
                    if (swung) comper.swing(time::Swing::at(time::Bpm(tempo)).ratio());
                    const auto map = comper.map();
                    const double beat = 60000 / tempo;
                    const Strum strum{late, beat,
                                      map.swing().short_note(time::Bpm(tempo)).milliseconds(),
                                      tests::tolerance_of(map).milliseconds(),
                                      (ways[way].back() - 1 + ring - 4) * beat};
                    // No hand strikes twice within 100 ms.
                    if (ways[way].back() == 4 && beat + late < 100) continue;
                    for (const double at : ways[way]) {
                        const bool moves = at == 3 && way == 1;
                        comper.strum(1, at, moves ? pair.other_first : pair.first, 0, ring);
                    }
                    comper.strum(2, 1, grip, late, 1.2);
                    INFO(pair.bars << " at " << tempo << (swung ? ", swung" : "") << ", way " << way
                                   << ", " << grip << " ringing " << ring << ", " << late << " ms");
                    // The old grip ahead of the beat is nothing but the old chord; held into the
                    // new one it is that already.
                    const bool same = grip == pair.first;
                    if (same && late < -strum.tolerance) continue;
                    if (same && late > strum.tolerance && strum.old_rings_on()) continue;
                    check(comper.change(2, tests::with_rhythm("four")), strum, true);
                    check(comper.change(2), strum, false);
                }
            }
        }
    }
    CHECK(cases > 2500);
}

TEST_CASE("chords that share their notes: the old grip on the last off-beat hides no late change") {
    for (const auto& pair : neighbours) {
        for (const double tempo : {80.0, 120.0, 160.0, 200.0}) {
            const double beat = 60000 / tempo;
            for (double late = 0; late <= std::min(200.0, beat * 0.8); late += 20) {
                Comper comper(pair.bars, tempo);
                comper.strum(1, 1, pair.first, 0, 1).strum(1, 4.5, pair.first, 0, 0.4);
                comper.strum(2, 1, pair.second, late, 1);
                const auto change = comper.change(2, tests::with_rhythm("four"));
                INFO(pair.bars << " at " << tempo << ", " << late << " ms");
                REQUIRE(change.lateness.has_value());
                CHECK(change.lateness->milliseconds() == Approx(late).margin(0.001));
            }
        }
    }
}
