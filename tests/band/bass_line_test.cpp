#include "support/bass_rules.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/random_changes.hpp"

#include <compline/band/bass.hpp>

#include <algorithm>
#include <cstdlib>
#include <set>

using namespace compline;
using band::BassBar;
using band::BassNote;
using chart::Bass;
using chart::Feel;
using time::Meter;
using time::Ticks;

namespace {

struct Manner {
    const char* name;
    Bass bass;
    Feel feel;
};
constexpr Manner manners[] = {
    {"walking", Bass::walking, Feel::swing},  {"two-feel", Bass::two_feel, Feel::swing},
    {"roots", Bass::roots, Feel::swing},      {"bossa", Bass::walking, Feel::bossa},
    {"ballad", Bass::two_feel, Feel::ballad}, {"ballad in four", Bass::walking, Feel::ballad}};

std::vector<chart::Form> demo_charts() {
    std::vector<chart::Form> forms;
    for (const auto* const name : {"blue-kettle-on-the-back-stairs", "the-ferryman-counts-to-nine",
                                   "three-lamps-on-weir-lane", "waltz-for-a-leaning-chimney"}) {
        forms.push_back(chart::unroll(
            chart::load_chart(std::string(COMPLINE_SOURCE_DIR "/charts/") + name + ".yaml")));
    }
    return forms;
}

void set_manner(std::vector<BassBar>& bars, const Manner& manner) {
    for (auto& bar : bars) {
        bar.bass = manner.bass;
        bar.feel = manner.feel;
    }
}

std::vector<BassBar> bars_of(Meter meter, const std::vector<std::string>& symbols,
                             Bass bass = Bass::walking, Feel feel = Feel::swing) {
    const auto form = tests::make_form(meter, time::Bpm(140), symbols);
    return tests::bass_bars(form, form.whole(), bass, feel);
}

std::vector<BassBar> blues_bars() {
    return bars_of(Meter(4), {"F7", "Bb7", "F7", "Cm7 F7", "Bb7", "Bdim7", "F7", "Am7b5 D7b9",
                              "Gm7", "C7", "F7 D7", "Gm7 C7"});
}

std::vector<BassNote> play_once(Meter meter, const std::vector<BassBar>& bars,
                                std::uint64_t seed = 1) {
    return tests::play(tests::gig_of(meter, bars, 1), seed);
}

std::vector<int> numbers(const std::vector<BassNote>& line) {
    std::vector<int> numbers;
    for (const auto& note : line) numbers.push_back(note.note.number());
    return numbers;
}

/// Where notes start, in ticks.
std::vector<std::int64_t> starts_of(const std::vector<BassNote>& line) {
    std::vector<std::int64_t> starts;
    for (const auto& note : line) starts.push_back(note.at.count());
    return starts;
}

int pitch_class_at(const std::vector<BassNote>& line, Ticks at) {
    for (const auto& note : line) {
        if (note.at == at) return note.note.pitch_class();
    }
    return -1;
}

/// What goes wrong in memory does so in the first lines: so under the sanitizers, where all is
/// slow.
#ifdef COMPLINE_SANITIZED
constexpr std::uint64_t most_seeds = 6;
#else
constexpr std::uint64_t most_seeds = 50;
#endif

Ticks beats(double count) { return Ticks(static_cast<std::int64_t>(count * 960)); }

}  // namespace

TEST_CASE("the bass keeps its rules through every demo chart in every key, whatever the seed") {
    for (const auto& demo : demo_charts()) {
        for (int key = 0; key < 12; ++key) {
            const auto form = tests::transposed(demo, key);
            for (const auto& manner : manners) {
                const auto gig =
                    tests::gig_of(form.chart.meter,
                                  tests::bass_bars(form, form.whole(), manner.bass, manner.feel), 2,
                                  form.chart.key.tonic.pitch_class());
                const tests::BassTeacher teacher(gig);
                for (std::uint64_t seed = 1; seed <= most_seeds; ++seed) {
                    const auto faults = teacher.faults_of(tests::play(gig, seed));
                    if (faults.empty()) continue;
                    CAPTURE(form.chart.title, key, manner.name, seed, faults);
                    FAIL_CHECK("the bass broke a rule");
                }
            }
        }
    }
}

TEST_CASE("the bass keeps its rules through changes that nobody would write") {
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        const Meter meter(3 + static_cast<int>(seed % 4));
        auto bars = tests::random_changes(meter, seed);
        if (seed % 3 == 2) tests::add_random_kicks(bars, meter, seed);
        std::optional<int> home;
        if (seed % 2 != 0) home = static_cast<int>(seed % 12);
        for (const auto& manner : manners) {
            set_manner(bars, manner);
            const auto gig = tests::gig_of(meter, bars, 2, home);
            const auto faults = tests::BassTeacher(gig).faults_of(tests::play(gig, seed));
            if (faults.empty()) continue;
            CAPTURE(meter.beats(), manner.name, seed, faults);
            FAIL_CHECK("the bass broke a rule");
        }
    }
}

TEST_CASE(
    "the bass keeps its rules where the manner changes every few bars and lays out at times") {
    for (std::uint64_t seed = 0; seed < 60; ++seed) {
        const Meter meter(3 + static_cast<int>(seed % 4));
        auto bars = tests::random_changes(meter, seed);
        tests::add_random_kicks(bars, meter, seed);
        for (std::size_t i = 0; i < bars.size(); ++i) {
            const auto& manner = manners[(i / 3 + seed) % std::size(manners)];
            bars[i].bass = i % 21 < 2 ? Bass::off : manner.bass;
            bars[i].feel = manner.feel;
        }
        const auto gig = tests::gig_of(meter, bars, 2);
        const auto faults = tests::BassTeacher(gig).faults_of(tests::play(gig, seed));
        CAPTURE(meter.beats(), seed, faults);
        CHECK(faults.empty());
    }
}

TEST_CASE("walking, a chord mostly starts on its root and the line stays between F1 and C3") {
    for (const auto& form : demo_charts()) {
        const auto gig = tests::gig_of(form.chart.meter, tests::bass_bars(form, form.whole()), 2);
        const tests::BassTeacher teacher(gig);
        tests::BassTeacher::Count count;
        for (std::uint64_t seed = 1; seed <= 20; ++seed) {
            teacher.count(tests::play(gig, seed), count);
        }
        CAPTURE(form.chart.title, count.starts, count.roots, count.notes, count.settled);
        CHECK(count.roots > count.starts * 9 / 10);
        CHECK(count.settled > count.notes * 9 / 10);
        CHECK(count.low > count.notes / 12);  // the bottom of the E string is used
    }
}

TEST_CASE("the same seed gives the same line, and another seed another one") {
    const auto gig = tests::gig_of(Meter(4), blues_bars(), 2);
    for (std::uint64_t seed = 0; seed < 20; ++seed) {
        CHECK(tests::play(gig, seed) == tests::play(gig, seed));
        CHECK(tests::play(gig, seed) != tests::play(gig, seed + 1));
    }
}

TEST_CASE("no chorus is the one before, not even of a passage of one bar") {
    for (const auto& bars : {blues_bars(), bars_of(Meter(4), {"Dm7 G7"}), bars_of(Meter(4), {"F7"}),
                             bars_of(Meter(3), {"F7"})}) {
        band::BassWriter writer(1);
        std::vector<int> before;
        for (int time = 0; time < 30; ++time) {
            const auto now = numbers(writer.next(bars, bars, std::nullopt));
            CAPTURE(bars.size(), time, now);
            CHECK(now != before);
            before = now;
        }
    }
}

TEST_CASE("twenty choruses of a blues are twenty lines") {
    band::BassWriter writer(3);
    std::set<std::vector<int>> lines;
    const auto bars = blues_bars();
    for (int time = 0; time < 20; ++time) {
        lines.insert(numbers(writer.next(bars, bars, std::nullopt)));
    }
    CHECK(lines.size() == 20);
}

TEST_CASE("what was played does not depend on how much of what follows is known beyond two bars") {
    const auto bars = blues_bars();
    const std::vector<BassBar> two_bars(bars.begin(), bars.begin() + 2);
    band::BassWriter one(1);
    band::BassWriter other(1);
    CHECK(one.next(bars, bars, std::nullopt) == other.next(bars, two_bars, std::nullopt));
}

TEST_CASE("a line cut into stretches of four bars keeps its rules across the seams") {
    for (std::uint64_t seed = 1; seed <= 50; ++seed) {
        tests::Gig gig{{}, {}, true, {}};
        for (int time = 0; time < 6; ++time) {
            gig.stretches.push_back(gig.bars.size());
            const auto bars = time % 2 == 0 ? bars_of(Meter(4), {"Dm7", "Dm7", "Dm7", "Dm7"})
                                            : bars_of(Meter(4), {"Gm7", "C7", "Fmaj7", "Fmaj7"});
            gig.bars.insert(gig.bars.end(), bars.begin(), bars.end());
        }
        const auto faults = tests::BassTeacher(gig).faults_of(tests::play(gig, seed));
        CAPTURE(seed, faults);
        CHECK(faults.empty());
    }
}

TEST_CASE("the very last note is the tonic, or the last root where no tonic is named") {
    const auto bars = bars_of(Meter(4), {"F7", "Gm7 C7"});
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        for (const auto& manner : manners) {
            auto played = bars;
            set_manner(played, manner);
            band::BassWriter writer(seed);
            CHECK(writer.next(played, {}, 5).back().note.pitch_class() == 5);
            band::BassWriter other(seed);
            CHECK(other.next(played, {}, std::nullopt).back().note.pitch_class() == 0);
        }
    }
}

TEST_CASE("a chord that stays for sixteen bars is walked on without two bars alike") {
    const auto bars = bars_of(Meter(4), std::vector<std::string>(16, "Dm7"));
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const auto line = numbers(play_once(Meter(4), bars, seed));
        REQUIRE(line.size() == 64);
        const std::set<int> pitches(line.begin(), line.end());
        CHECK(pitches.size() >= 9);
        for (std::size_t bar = 1; bar < 16; ++bar) {
            const auto at = line.begin() + static_cast<std::ptrdiff_t>(4 * bar);
            CHECK_FALSE(std::equal(at, at + 4, at - 4));
        }
    }
}

TEST_CASE("a walk through D dorian passes E, G and B and not what the chords elsewhere have") {
    // E flat minor comes and goes; the D minor before it has nothing to do with its B flat.
    const auto bars = bars_of(Meter(4), {"Dm7", "Dm7", "Dm7", "Dm7", "Ebm7", "Ebm7"});
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const auto line = play_once(Meter(4), bars, seed);
        for (std::size_t i = 0; i < 15; ++i) {
            const int tone = line[i].note.pitch_class();
            const bool outside = tone == 1 || tone == 3 || tone == 6 || tone == 8 || tone == 10;
            const int next = line[i + 1].note.number() - line[i].note.number();
            // Chromatic passing notes go on by a semitone.
            if (outside) CHECK(std::abs(next) == 1);
        }
    }
}

TEST_CASE("passing notes are those of the key that the chords around belong to") {
    // In C minor the half-diminished chord on D has an E flat beside it, in C major the minor one
    // an E.
    const auto count = [](const std::vector<std::string>& symbols, int pitch_class) {
        int times = 0;
        for (std::uint64_t seed = 1; seed <= 60; ++seed) {
            const auto line = play_once(Meter(4), bars_of(Meter(4), symbols), seed);
            // The second and third beats of the second bar: no approach.
            for (const std::size_t i : {5U, 6U}) {
                times += line[i].note.pitch_class() == pitch_class ? 1 : 0;
            }
        }
        return times;
    };
    const std::vector<std::string> minor = {"Cm6", "Dm7b5", "G7b9", "Cm6"};
    const std::vector<std::string> major = {"Cmaj7", "Dm7", "G7", "Cmaj7"};
    CHECK(count(minor, 3) > count(minor, 4));
    CHECK(count(major, 4) > count(major, 3));
}

TEST_CASE("slash chords start on the bass note in every manner") {
    const std::vector<std::string> symbols = {"C/E", "F/A", "C/E", "G7/B", "Am7/G", "D9/F#", "C"};
    const std::vector<int> basses = {4, 9, 4, 11, 7, 6};
    for (const auto& manner : manners) {
        for (std::uint64_t seed = 1; seed <= 10; ++seed) {
            const auto line =
                play_once(Meter(4), bars_of(Meter(4), symbols, manner.bass, manner.feel), seed);
            for (std::size_t bar = 0; bar < basses.size(); ++bar) {
                CAPTURE(manner.name, seed, bar);
                CHECK(pitch_class_at(line, beats(4.0 * static_cast<double>(bar))) == basses[bar]);
            }
        }
    }
}

TEST_CASE("in two, the root is on 1 and the chord's own fifth on 3 of a chord that goes on") {
    const std::vector<std::pair<std::string, int>> fifths = {
        {"Cmaj7", 7}, {"Cm7b5", 6}, {"Caug", 8},  {"C7b5", 6},
        {"Cdim7", 6}, {"C7alt", 0}, {"Csus4", 7}, {"C/G", 0}};
    for (const auto& [symbol, fifth] : fifths) {
        const auto bars = bars_of(Meter(4), {symbol, symbol, symbol}, Bass::two_feel);
        for (std::uint64_t seed = 1; seed <= 10; ++seed) {
            const auto line = play_once(Meter(4), bars, seed);
            CAPTURE(symbol, seed, numbers(line));
            CHECK(pitch_class_at(line, beats(0)) == (symbol == "C/G" ? 7 : 0));
            CHECK(pitch_class_at(line, beats(2)) == fifth);
            CHECK(pitch_class_at(line, beats(6)) == fifth);
        }
    }
}

TEST_CASE("in two, most bars are two half notes and some have a third note") {
    const auto bars = bars_of(Meter(4), {"F7", "Bb7", "Gm7", "C7"}, Bass::two_feel);
    int bars_of_two = 0;
    int bars_of_three = 0;
    for (std::uint64_t seed = 1; seed <= 50; ++seed) {
        const auto line = tests::play(tests::gig_of(Meter(4), bars, 2), seed);
        for (int bar = 0; bar < 8; ++bar) {
            const auto notes = std::count_if(line.begin(), line.end(), [&](const BassNote& note) {
                return note.at / Meter(4).bar() == bar;
            });
            bars_of_two += notes == 2 ? 1 : 0;
            bars_of_three += notes == 3 ? 1 : 0;
        }
    }
    CHECK(bars_of_two + bars_of_three == 400);
    CHECK(bars_of_two > 160);
    CHECK(bars_of_three > 80);
}

TEST_CASE("a waltz in one has a dotted half a bar, the fifth where the chord goes on") {
    const auto bars = bars_of(Meter(3), {"Gmaj7", "Gmaj7", "Am7", "D7"}, Bass::two_feel);
    int fifths = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const auto line = play_once(Meter(3), bars, seed);
        CHECK(starts_of(line) == std::vector<std::int64_t>{0, 2880, 5760, 8640});
        for (const auto& note : line) CHECK(note.length == Ticks(2592));
        fifths += line[1].note.pitch_class() == 2 ? 1 : 0;
    }
    CHECK(fifths > 10);
}

TEST_CASE("a walking waltz has three quarters a bar, and 5 and 6 have five and six") {
    for (const int beats_a_bar : {3, 4, 5, 6}) {
        const Meter meter(beats_a_bar);
        const auto line = play_once(meter, bars_of(meter, {"Gmaj7", "Am7"}));
        REQUIRE(line.size() == static_cast<std::size_t>(2 * beats_a_bar));
        for (std::size_t i = 0; i < line.size(); ++i) {
            CHECK(line[i].at == meter.beat() * static_cast<std::int64_t>(i));
            CHECK(line[i].length == Ticks(864));
        }
    }
}

TEST_CASE("5/4 in two and on roots is three and two, and 6/4 is two bars of waltz") {
    for (const int beats_a_bar : {5, 6}) {
        const Meter meter(beats_a_bar);
        for (const Bass bass : {Bass::two_feel, Bass::roots}) {
            const auto line = play_once(meter, bars_of(meter, {"Gmaj7", "Am7"}, bass));
            const std::int64_t bar = meter.bar().count();
            CHECK(starts_of(line) == std::vector<std::int64_t>{0, 2880, bar, bar + 2880});
            if (bass == Bass::roots) {
                CHECK(line[0].note.pitch_class() == 7);
                CHECK(line[1].note.pitch_class() == 7);
                CHECK(line[3].note.pitch_class() == 9);
            }
        }
    }
}

TEST_CASE("roots are held until the next chord or the bar line") {
    const auto line =
        play_once(Meter(4), bars_of(Meter(4), {"F7", "F7", "Gm7 C7", "N.C.", "F7"}, Bass::roots));
    CHECK(starts_of(line) == std::vector<std::int64_t>{0, 3840, 7680, 9600, 15360});
    CHECK(line[0].length == Ticks(3456));
    CHECK(line[2].length == Ticks(1728));
    CHECK(line[3].length == Ticks(1728));
    CHECK(line[0].note == line[1].note);
}

TEST_CASE("a bossa is root, fifth, fifth, and ahead of the next root") {
    const auto bars =
        bars_of(Meter(4), {"Am7", "D7", "Gmaj7", "Gmaj7"}, Bass::two_feel, Feel::bossa);
    int ahead = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const auto line = play_once(Meter(4), bars, seed);
        REQUIRE(line.size() == 16);
        for (std::size_t bar = 0; bar < 4; ++bar) {
            const Ticks start = Meter(4).bar() * static_cast<std::int64_t>(bar);
            CHECK(line[4 * bar].at == start);
            CHECK(line[4 * bar + 1].at == start + beats(1.5));
            CHECK(line[4 * bar + 2].at == start + beats(2));
            CHECK(line[4 * bar + 3].at == start + beats(3.5));
        }
        CHECK(line[0].note.pitch_class() == 9);
        CHECK(line[1].note.pitch_class() == 4);
        CHECK(line[2].note.pitch_class() == 4);
        CHECK(line[0].length == Ticks(1296));
        CHECK(line[1].length == Ticks(432));
        ahead += line[3].note == line[4].note ? 1 : 0;
    }
    CHECK(ahead > 8);
}

TEST_CASE("ballads ring longer than swing") {
    const auto bars = bars_of(Meter(4), {"F7", "Bb7"}, Bass::roots, Feel::ballad);
    CHECK(play_once(Meter(4), bars)[0].length == Ticks(3724));
}

TEST_CASE("on N.C. and where it is off the bass rests") {
    auto bars = bars_of(Meter(4), {"F7", "N.C.", "Bb7 N.C.", "F7", "C7", "F7"});
    bars[4].bass = Bass::off;
    const auto line = play_once(Meter(4), bars);
    for (const auto& note : line) {
        const auto beat = note.at / beats(1);
        const bool rest =
            (beat >= 4 && beat < 8) || beat == 10 || beat == 11 || (beat >= 16 && beat < 20);
        CHECK_FALSE(rest);
    }
    CHECK(line.size() == 14);
    CHECK(play_once(Meter(4), bars_of(Meter(4), {"N.C.", "N.C."})).empty());
}

TEST_CASE("a kick has the root, louder and shorter, off the beat before a change the next root") {
    for (const auto& manner : manners) {
        auto bars = bars_of(Meter(4), {"F7", "Bb7", "F7"}, manner.bass, manner.feel);
        bars[0].kicks = {beats(1.5), beats(3.5)};
        bars[1].kicks = {beats(2)};
        for (std::uint64_t seed = 1; seed <= 10; ++seed) {
            const auto line = play_once(Meter(4), bars, seed);
            CAPTURE(manner.name, seed, numbers(line));
            CHECK(pitch_class_at(line, beats(1.5)) == 5);
            CHECK(pitch_class_at(line, beats(3.5)) == 10);
            CHECK(pitch_class_at(line, beats(6)) == 10);
            for (const auto& note : line) {
                const bool kick =
                    note.at == beats(1.5) || note.at == beats(3.5) || note.at == beats(6);
                CHECK((note.velocity >= 100) == kick);
            }
            const auto last_kick = std::find_if(line.begin(), line.end(), [](const BassNote& note) {
                return note.at == beats(3.5);
            });
            CHECK(last_kick->length == Ticks(360));
        }
    }
}

TEST_CASE("a kick ahead of the chord after N.C. is struck in the rest") {
    auto bars = bars_of(Meter(4), {"F7", "N.C.", "Bb7"});
    bars[1].kicks = {beats(1), beats(3.5)};
    const auto line = play_once(Meter(4), bars);
    CHECK(pitch_class_at(line, beats(7.5)) == 10);
    CHECK(pitch_class_at(line, beats(5)) == -1);
}

TEST_CASE("where a chord starts and on the first beat the bass is a little louder") {
    for (const auto& note : play_once(Meter(4), bars_of(Meter(4), {"Dm7 G7", "Cmaj7"}))) {
        const auto beat = note.at / beats(1);
        CHECK(note.velocity == (beat == 0 || beat == 2 || beat == 4 ? 88 : 80));
    }
}
