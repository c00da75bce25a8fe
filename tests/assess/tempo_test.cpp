#include "support/catch.hpp"
#include "support/comper.hpp"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <vector>

using namespace compline;
using assess::Tones;
using assess::Verdict;
using tests::Comper;

// Fast and slow, short chords and long ones: each played right, and with one chord late, with a
// wrong tone, and not at all.

namespace {

struct Chord {
    int bar;
    double beat;
    std::string grip;
    std::string wrong;  // the same with a tone that is not in the chord
};

struct Passage {
    const char* name;
    const char* bars;
    double tempo;
    double swing;
    int beats;     // in a bar
    double chord;  // beats each chord lasts
    std::vector<Chord> chords;
};

const std::vector<Passage> passages = {{"two changes a bar at 240",
                                        "Dm7 G7 | Cmaj7 A7 | Dm7 G7 | Cmaj7",
                                        240,
                                        1.74,
                                        4,
                                        2,
                                        {{1, 1, "x5x56x", "x5x66x"},
                                         {1, 3, "3x34xx", "3x44xx"},
                                         {2, 1, "x3x45x", "x3x46x"},
                                         {2, 3, "5x56xx", "5x66xx"},
                                         {3, 1, "x5x56x", "x5x57x"},
                                         {3, 3, "3x34xx", "3x44xx"},
                                         {4, 1, "x3x45x", "x3x44x"}}},
                                       {"one change a beat at 140",
                                        "Fmaj7 F#dim7 Gm7 C7 | Am7 D7 Gm7 C7 | Fmaj7",
                                        140,
                                        2.4,
                                        4,
                                        1,
                                        {{1, 1, "1x221x", "1x231x"},
                                         {1, 2, "2x121x", "2x131x"},
                                         {1, 3, "3x333x", "3x343x"},
                                         {1, 4, "x3231x", "x3131x"},
                                         {2, 1, "5x555x", "5x565x"},
                                         {2, 2, "x5453x", "x5353x"},
                                         {2, 3, "3x333x", "3x343x"},
                                         {2, 4, "x3231x", "x3131x"},
                                         {3, 1, "1x221x", "1x231x"}}},
                                       {"a ballad at 56",
                                        "Dm7 | G7 | Cmaj7 | F#m7 B7",
                                        56,
                                        3,
                                        4,
                                        4,
                                        {{1, 1, "x5x56x", "x5x57x"},
                                         {2, 1, "3x34xx", "3x44xx"},
                                         {3, 1, "x3x45x", "x3x44x"},
                                         {4, 1, "2x22xx", "2x23xx"},
                                         {4, 3, "x2124x", "x2224x"}}},
                                       {"a waltz at 180",
                                        "Dm7 | G7 | Cmaj7 | A7",
                                        180,
                                        2.1,
                                        3,
                                        3,
                                        {{1, 1, "x5x56x", "x5x57x"},
                                         {2, 1, "3x34xx", "3x44xx"},
                                         {3, 1, "x3x45x", "x3x44x"},
                                         {4, 1, "5x56xx", "5x66xx"}}},
                                       {"three beats and one, in four",
                                        "C7 / / F7 | Bbmaj7 / / Em7 | A7 / / Dm7",
                                        132,
                                        2.58,
                                        4,
                                        1,
                                        {{1, 1, "x3231x", "x3241x"},
                                         {1, 4, "1x12xx", "1x22xx"},
                                         {2, 1, "x1323x", "x1423x"},
                                         {2, 4, "x7778x", "x7878x"},
                                         {3, 1, "5x56xx", "5x66xx"},
                                         {3, 4, "x5x56x", "x5x57x"}}},
                                       {"three beats each, in three",
                                        "C7 | F7 | Bbmaj7 | Em7",
                                        132,
                                        2.58,
                                        3,
                                        3,
                                        {{1, 1, "x3231x", "x3241x"},
                                         {2, 1, "1x12xx", "1x22xx"},
                                         {3, 1, "x1323x", "x1423x"},
                                         {4, 1, "x7778x", "x7878x"}}}};

struct Slip {
    enum class Kind { late, wrong, missing, silent } kind;
    std::size_t chord;
};

/// Plays the passage, every chord until just before the next, with at most one slip.
Comper play(const Passage& passage, const std::optional<Slip>& slip) {
    Comper comper(passage.bars, passage.tempo, "C", passage.beats);
    comper.swing(passage.swing);
    const double late = tests::tolerance_of(comper.map()).milliseconds() + 12;
    for (std::size_t n = 0; n < passage.chords.size(); ++n) {
        const auto& chord = passage.chords[n];
        const auto slips = [&](Slip::Kind kind, std::size_t k) {
            return slip && slip->kind == kind && slip->chord == k;
        };
        if (slips(Slip::Kind::missing, n) || slips(Slip::Kind::silent, n)) continue;
        const auto& next = passage.chords[std::min(n + 1, passage.chords.size() - 1)];
        const double until_next = (next.bar - chord.bar) * passage.beats + next.beat - chord.beat;
        // The hand stays down where the next chord is forgotten.
        const double rings = slips(Slip::Kind::missing, n + 1) ? until_next + passage.chord * 0.8
                                                               : std::max(0.5, until_next - 0.3);
        comper.strum(chord.bar, chord.beat, slips(Slip::Kind::wrong, n) ? chord.wrong : chord.grip,
                     slips(Slip::Kind::late, n) ? late : 2, rings);
    }
    return comper;
}

/// Every change is on time and right, but for `at`.
void check_others(const assess::Assessment& judged, std::size_t at) {
    for (std::size_t n = 0; n < judged.changes.size(); ++n) {
        if (n == at) continue;
        INFO("change " << n + 1 << " to " << judged.changes[n].to.symbol());
        CHECK(judged.changes[n].verdict == Verdict::on_time);
        CHECK(judged.changes[n].tones == Tones::right);
    }
}

}  // namespace

TEST_CASE("fast and slow, short chords and long: what is played right is right") {
    for (const auto& passage : passages) {
        for (const char* rhythm : {"free", "four"}) {
            const auto judged = play(passage, {}).judged(tests::with_rhythm(rhythm));
            INFO(passage.name << " " << rhythm);
            REQUIRE(judged.changes.size() == passage.chords.size());
            check_others(judged, judged.changes.size());
        }
    }
}

TEST_CASE("fast and slow, short chords and long: one late chord is late, and no other") {
    for (const auto& passage : passages) {
        for (std::size_t n = 0; n < passage.chords.size(); ++n) {
            const auto comper = play(passage, Slip{Slip::Kind::late, n});
            const double late = tests::tolerance_of(comper.map()).milliseconds() + 12;
            for (const char* rhythm : {"free", "four"}) {
                const auto judged = comper.judged(tests::with_rhythm(rhythm));
                INFO(passage.name << " " << rhythm << " change " << n + 1);
                CHECK(judged.changes[n].verdict == Verdict::late);
                CHECK(judged.changes[n].lateness->milliseconds() == Approx(late).margin(0.001));
                CHECK(judged.changes[n].tones == Tones::right);
                check_others(judged, n);
            }
        }
    }
}

TEST_CASE("fast and slow, short chords and long: one wrong tone is wrong, and no other") {
    for (const auto& passage : passages) {
        for (std::size_t n = 0; n < passage.chords.size(); ++n) {
            for (const char* rhythm : {"free", "four"}) {
                const auto judged =
                    play(passage, Slip{Slip::Kind::wrong, n}).judged(tests::with_rhythm(rhythm));
                INFO(passage.name << " " << rhythm << " change " << n + 1);
                CHECK(judged.changes[n].verdict == Verdict::on_time);
                CHECK(judged.changes[n].tones == Tones::wrong);
                REQUIRE(judged.changes[n].wrong.size() == 1);
                check_others(judged, n);
            }
        }
    }
}

TEST_CASE("fast and slow, short chords and long: a forgotten chord is missed, a rest laid out") {
    for (const auto& passage : passages) {
        for (std::size_t n = 1; n < passage.chords.size(); ++n) {
            INFO(passage.name << " change " << n + 1);
            const auto missing = play(passage, Slip{Slip::Kind::missing, n});
            for (const char* rhythm : {"free", "four"}) {
                const auto judged = missing.judged(tests::with_rhythm(rhythm));
                CHECK(judged.changes[n].verdict == Verdict::missed);
                check_others(judged, n);
            }
            const auto silent = play(passage, Slip{Slip::Kind::silent, n});
            CHECK(silent.change(n + 1).verdict == Verdict::laid_out);
            check_others(silent.judged(), n);
            CHECK(silent.change(n + 1, tests::with_rhythm("four")).verdict == Verdict::missed);
        }
    }
}

TEST_CASE("one chord for sixteen bars is one change, however it is varied") {
    const auto vamp = [](double late, const char* first) {
        Comper comper("Dm7 | % | % | % | % | % | % | % | % | % | % | % | % | % | % | % | Ebm7",
                      126);
        comper.swing(2.6).strum(1, 1, first, late);
        // Plain, ninth on top, eleventh, four notes, up the neck.
        const char* grips[] = {"x5x56x", "x5355x", "x5x58x", "x5756x", "10-x-10-10-10-x"};
        for (int bar = 1; bar <= 16; ++bar) {
            const char* grip = grips[bar % 5];
            comper.strum(bar, 2.5, grip, 4, 0.6).strum(bar, 4, grip, 4, 0.08);  // dead on 4
        }
        comper.strum(17, 1, "x6x67x");
        return comper;
    };
    const auto judged = vamp(0, "x5x56x").judged();
    REQUIRE(judged.totals.changes == 2);
    CHECK(vamp(0, "x5x56x").verdicts() == "on_time on_time");
    CHECK(judged.changes[0].inside == 16);
    CHECK(judged.changes[0].outside + judged.changes[0].passing == 0);
    CHECK(judged.time.all.count == 34);
    CHECK(vamp(80, "x5x56x").verdicts() == "late on_time");
    CHECK(vamp(0, "x5x57x").verdicts() == "on_time/wrong on_time");
    // Left out at first, it comes on the off-beat; never, it is laid out or forgotten.
    Comper later("Dm7 | % | % | %", 126);
    later.swing(2.6).strum(1, 2.5, "x5x56x", 4);
    CHECK(later.verdicts() == "placed");
    CHECK(later.change(1).beats_in == 1.5);
    CHECK(Comper("Dm7 | % | % | %", 126).verdicts() == "laid_out");
    CHECK(Comper("Dm7 | % | % | %", 126).verdicts(tests::with_rhythm("four")) == "missed");
    Comper never("Dm7 | % | % | Ebm7 | % | %", 126);
    never.strum(1, 1, "x5x56x");
    for (int bar = 2; bar <= 6; ++bar) never.strum(bar, 1, "x5x56x");
    CHECK(never.verdicts() == "on_time missed");
}
