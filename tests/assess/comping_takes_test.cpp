#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"

#include <string>
#include <vector>

using namespace compline;
using assess::Verdict;
using tests::Comper;
using tests::said;

// Comping on 2 and 4, and a take with a little of everything.

namespace {

struct Chord {
    int bar;
    double beat;
    const char* grip;
};

// Half of the bars have two chords.
const std::string bars = "Dm7 | G7 | Cmaj7 A7 | Dm7 G7 | F#m7 | C7 | Bbm7 E7 | Ebm7 Ab7";
const std::vector<Chord> chords = {{1, 1, "x5x56x"}, {2, 1, "3x34xx"}, {3, 1, "x3x45x"},
                                   {3, 3, "5x56xx"}, {4, 1, "x5x56x"}, {4, 3, "3x34xx"},
                                   {5, 1, "2x22xx"}, {6, 1, "8x89xx"}, {7, 1, "6x66xx"},
                                   {7, 3, "x7x79x"}, {8, 1, "x6x67x"}, {8, 3, "4x45xx"}};

bool alone_in_bar(int bar) { return bar <= 2 || bar == 5 || bar == 6; }

/// Twice through on 2 and 4; chord n of the first time is played by `instead`.
template <typename Instead>
Comper on_two_and_four(std::size_t n, Instead instead) {
    Comper comper(bars, 152);
    comper.swing(time::Swing::at(time::Bpm(152)).ratio()).times(2);
    for (int time = 0; time < 2; ++time) {
        for (std::size_t i = 0; i < chords.size(); ++i) {
            const auto [bar, beat, grip] = chords[i];
            if (time == 0 && i + 1 == n) {
                instead(comper, bar, beat + 1);
                continue;
            }
            comper.strum(8 * time + bar, beat + 1, grip, 6, 0.6);
            if (alone_in_bar(bar)) comper.strum(8 * time + bar, 4, grip, -4, 0.6);
        }
    }
    return comper;
}

Comper on_two_and_four() {
    return on_two_and_four(0, [](Comper&, int, double) {});
}

}  // namespace

TEST_CASE("on 2 and 4 all chords are placed by a beat, without a fault") {
    const auto judged = on_two_and_four().judged();
    REQUIRE(judged.changes.size() == 24);
    for (const auto& change : judged.changes) {
        INFO(change.bar << " " << change.beat.number());
        CHECK(said(change) == "placed +6 at 1");
        CHECK(!change.wait);
    }
    CHECK(tests::is_clean(judged));
}

TEST_CASE("on 2 and 4 a late chord, a slip, and a chord that never comes are found") {
    const auto among_them = [](const Comper& comper, std::size_t n) {
        const auto judged = comper.judged();
        REQUIRE(judged.changes.size() == 24);
        for (std::size_t i = 0; i < judged.changes.size(); ++i) {
            INFO(i + 1 << ": " << said(judged.changes[i]));
            if (i + 1 != n) CHECK(said(judged.changes[i]) == "placed +6 at 1");
        }
        return said(judged.changes[n - 1]);
    };
    for (const auto n : {2UL, 5UL, 8UL}) {
        const std::string grip = chords[n - 1].grip;
        const auto late = on_two_and_four(
            n, [&](Comper& hand, int bar, double beat) { hand.strum(bar, beat, grip, 100, 0.6); });
        CHECK(among_them(late, n) == "late +100 at 1");
    }
    const auto slip = on_two_and_four(
        2, [](Comper& hand, int bar, double beat) { hand.strum(bar, beat, "3x33xx", 6, 0.6); });
    CHECK(among_them(slip, 2) == "placed +6 at 1, wrong");
    const auto never = on_two_and_four(8, [](Comper& hand, int bar, double beat) {
        hand.strum(bar, beat, "2x22xx", 6, 0.6).strum(bar, 4, "2x22xx", 6, 0.6);  // F#m7 still
    });
    CHECK(among_them(never, 8) == "missed");
}

TEST_CASE(
    "waits, a broken chord, an up-stroke, N.C. and a player astray do not get in each other's "
    "way") {
    Comper comper("Dm7 | G7 | Cmaj7 | N.C. | F#m7 | C7 | Bbm7 | E7 | Ebm7 | B7 | Gm7 | Db7", 132);
    comper.swing(2.58).times(4);
    const std::vector<std::string> grips = {"x5x56x", "3x34xx", "x3x45x", "",
                                            "2x22xx", "8x89xx", "6x66xx", "x7x79x",
                                            "x6x67x", "7x78xx", "3x33xx", "9-x-9-10-x-x"};
    for (int time = 0; time < 4; ++time) {
        const int from = 12 * time;
        for (int bar = 1; bar <= 12; ++bar) {
            const auto& grip = grips[static_cast<std::size_t>(bar - 1)];
            const bool lost = time == 2 && bar >= 7 && bar <= 10;
            if (bar == 4) {
                comper.note(from + 4, 2, 1, 8).note(from + 4, 3, 1, 9).note(from + 4, 3.5, 2, 9);
            } else if (bar == 2) {
                comper.strum(from + bar, 2, grip, 5);  // waits for the grip
            } else if (bar == 3) {
                comper.note(from + 3, 1, 5, 3, 0, 3).note(from + 3, 1, 2, 5, 150, 3);
                comper.note(from + 3, 1, 3, 4, 300, 2);
            } else if (bar == 6) {
                comper.strum(from + bar, 1, grip, -65, 0.5).strum(from + bar, 1, grip, 8);
            } else {
                comper.strum(from + bar, 1, lost ? grips[static_cast<std::size_t>(bar)] : grip, 5);
            }
        }
    }
    const auto judged = comper.judged();
    REQUIRE(judged.changes.size() == 44);
    for (const auto& change : judged.changes) {
        INFO(change.time_through << " " << change.bar << " " << said(change));
        const bool lost = change.time_through == 3 && change.bar >= 7 && change.bar <= 10;
        CHECK(change.verdict == (lost              ? Verdict::astray
                                 : change.bar == 2 ? Verdict::placed
                                                   : Verdict::on_time));
        CHECK(change.wait == (change.bar == 2));
        CHECK(change.tones == assess::Tones::right);
        CHECK(change.outside == 0);
    }
    REQUIRE(judged.astray.size() == 1);
    CHECK(judged.astray[0].changes == 4);
    CHECK(judged.weakest->cost == Approx(4 * 1.0));
    const auto read = tests::readings(judged);
    CHECK(read.find("up_stroke") != std::string::npos);
}
