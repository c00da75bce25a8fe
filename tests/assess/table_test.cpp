#include "support/catch.hpp"
#include "support/comper.hpp"
#include "support/said.hpp"
#include "support/twelve_bars.hpp"

#include <fmt/format.h>

#include <array>
#include <string>

using namespace compline;
using assess::Tones;
using assess::Verdict;
using tests::Comper;
using tests::said;

// Whole takes by players with one trouble each, and what is to be said of them.

namespace {

const std::string bars = std::string("Dm7 | G7 | Cmaj7 | A7 | ") + tests::twelve_bars;
constexpr int last_bar = 16;

std::string grip(int bar) {
    constexpr std::array first_four{"x5x56x", "3x34xx", "x3x45x", "5x56xx"};
    return bar > 4 ? tests::shell(bar - 4) : first_four.at(static_cast<std::size_t>(bar - 1));
}

double off_beat_ms(double tempo) {
    const time::Bpm bpm(tempo);
    return (bpm.beat() - time::Swing::at(bpm).short_note(bpm)).milliseconds();
}

Comper swung(double tempo) {
    Comper comper(bars, tempo);
    comper.swing(time::Swing::at(time::Bpm(tempo)).ratio());
    return comper;
}

/// Every chord so late; the one before is let go before the beat, or rings until the next is
/// struck.
Comper all_late(double tempo, double late, bool rings_on) {
    auto comper = swung(tempo);
    for (int bar = 1; bar <= last_bar; ++bar) {
        comper.strum(bar, 1, grip(bar), bar == 1 ? 0 : late, rings_on && bar > 1 ? 4 : 2);
        if (bar == 1 && rings_on) comper.strum(1, 3, grip(1), 0, 2 + late * tempo / 60000);
    }
    return comper;
}

void check_late(const Comper& comper, double late) {
    const auto judged = comper.judged();
    REQUIRE(judged.changes.size() == last_bar);
    for (std::size_t n = 1; n < judged.changes.size(); ++n) {
        INFO(judged.changes[n].bar << ", " << late << " ms late: " << said(judged.changes[n]));
        CHECK(judged.changes[n].verdict == Verdict::late);
        CHECK(judged.changes[n].tones == Tones::right);
        CHECK(judged.changes[n].lateness->milliseconds() == Approx(late).margin(0.01));
    }
}

}  // namespace

TEST_CASE("every change late by 60 to 150 ms at 152: all late, all right") {
    for (const double late : {60.0, 80.0, 100.0, 115.0, 130.0, 150.0}) {
        check_late(all_late(152, late, true), late);
        check_late(all_late(152, late, false), late);
    }
}

TEST_CASE("every change late by 180 to 300 ms at 152, the old grip ringing: all late") {
    for (const double late : {180.0, 210.0, 240.0, 270.0, 300.0}) {
        check_late(all_late(152, late, true), late);
    }
}

TEST_CASE(
    "every change late by 180 to 300 ms at 152, the old grip let go: late or on the off-beat") {
    const double off_beat = off_beat_ms(152);
    const double tolerance = all_late(152, 0, false).judged().tolerance.milliseconds();
    for (double late = 180; late <= 300; late += 10) {
        const double from_off_beat = late - off_beat;
        const bool placed = std::abs(from_off_beat) < tolerance;
        const auto judged = all_late(152, late, false).judged();
        for (std::size_t n = 1; n < judged.changes.size(); ++n) {
            INFO(judged.changes[n].bar << ", " << late << " ms late");
            CHECK(said(judged.changes[n]) ==
                  (placed ? fmt::format("placed {:+.0f} at 0.5", from_off_beat)
                          : fmt::format("late {:+.0f} at 0", late)));
        }
    }
}

TEST_CASE("four bars without a strum are laid out, and an empty take is all of that") {
    auto comper = swung(152);
    for (int bar = 1; bar <= last_bar; ++bar) {
        if (bar < 5 || bar > 8) comper.strum(bar, 1, grip(bar), 5);
    }
    const auto judged = comper.judged();
    for (const auto& change : judged.changes) {
        const bool rests = change.bar >= 5 && change.bar <= 8;
        CHECK(change.verdict == (rests ? Verdict::laid_out : Verdict::on_time));
    }
    CHECK(tests::is_clean(judged));
    const auto empty = swung(152).judged();
    CHECK(empty.totals.changes == last_bar);
    CHECK(empty.totals.count(Verdict::laid_out) == last_bar);
    CHECK(empty.strums.empty());
    CHECK(!empty.weakest);
}

TEST_CASE("who stands 15 or 30 ms behind the beat is never late") {
    const std::array unsteady{0.0, 4.0, -5.0, 2.0, -3.0, 6.0, -4.0};
    for (const double tempo : {120.0, 220.0}) {
        for (const double behind : {15.0, 30.0}) {
            auto comper = swung(tempo);
            for (int bar = 1; bar <= last_bar; ++bar) {
                for (const int beat : {1, 2, 3, 4}) {
                    const auto n = static_cast<std::size_t>(4 * bar + beat) % unsteady.size();
                    comper.strum(bar, beat, grip(bar), behind + unsteady[n], 0.7);
                }
            }
            INFO(behind << " ms behind at " << tempo);
            const auto judged = comper.judged();
            CHECK(judged.totals.count(Verdict::on_time) == last_bar);
            CHECK(tests::is_clean(judged));
            CHECK(judged.own_place.told_apart);
            CHECK(judged.own_place.on_beats->milliseconds() == Approx(behind).margin(1.5));
        }
    }
}

TEST_CASE("a wrong third, a wrong fret or a stuck finger is wrong on its own strum, never missed") {
    // G7 with a minor third; Cmaj7 with its root, and with its third, a fret up; Dm7 with the C
    // sharp of A7; Gm7 with a major third.
    struct Slip {
        int bar;
        const char* grip;
        int string;
        bool stuck;
    };
    for (const double late : {0.0, 90.0}) {
        for (const Slip& slip :
             {Slip{2, "3x33xx", 3, false}, Slip{3, "x4x45x", 5, false}, Slip{3, "x3x46x", 2, false},
              Slip{5, "x5x66x", 3, true}, Slip{13, "3x34xx", 3, false}}) {
            auto comper = swung(152);
            for (int bar = 1; bar <= last_bar; ++bar) {
                const bool slips = bar == slip.bar;
                comper.strum(bar, 1, slips ? slip.grip : grip(bar), slips ? late : 0);
            }
            const auto judged = comper.judged();
            for (const auto& change : judged.changes) {
                INFO(slip.grip << " in bar " << slip.bar << ": " << change.bar << " "
                               << said(change));
                const bool slips = change.bar == slip.bar;
                CHECK(change.verdict == (slips && late > 0 ? Verdict::late : Verdict::on_time));
                CHECK(change.tones == (slips ? Tones::wrong : Tones::right));
                if (!slips || change.wrong.empty()) continue;
                CHECK(change.wrong.front().string == slip.string);
                CHECK(change.wrong.front().stuck_finger == slip.stuck);
            }
        }
    }
}

TEST_CASE("lost for two to six changes at 152: all of them astray, and no others") {
    for (int length = 2; length <= 6; ++length) {
        for (const int ahead : {1, -1}) {
            auto comper = swung(152);
            for (int bar = 1; bar <= last_bar; ++bar) {
                const bool lost = bar >= 7 && bar < 7 + length;
                comper.strum(bar, 1, grip(lost ? bar + ahead : bar), 4);
            }
            for (const auto& change : comper.judged().changes) {
                const bool lost = change.bar >= 7 && change.bar < 7 + length;
                INFO(length << " lost, " << ahead << " ahead, bar " << change.bar);
                CHECK(change.verdict == (lost ? Verdict::astray : Verdict::on_time));
            }
        }
    }
}
