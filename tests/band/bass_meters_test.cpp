// The bass in 2/2, 2/4, 6/8, 9/8 and 12/8, in half-time and double-time, and from one meter into
// another.

#include "support/bass_rules.hpp"
#include "support/catch.hpp"
#include "support/meters.hpp"
#include "support/random_changes.hpp"

#include <compline/band/bass.hpp>
#include <compline/harmony/chord.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace compline;
using band::BassBar;
using chart::Bass;
using chart::Feel;
using time::Meter;
using time::Ticks;

namespace {

Meter meter_of(int above, int below) { return *Meter::find(above, below); }

BassBar bar_of(const Meter& meter, const std::string& symbol, Bass bass, Feel feel = Feel::swing) {
    BassBar bar;
    bar.chords = {{Ticks(0), meter.bar(), harmony::read_chord(symbol)}};
    bar.bass = bass;
    bar.feel = feel;
    bar.meter = meter;
    return bar;
}

/// Where the bass plays in a bar that another chord follows, in eighths; of as many seeds as are
/// needed to hear what comes now and then.
std::string places(const Meter& meter, Bass bass, Feel feel = Feel::swing) {
    std::string line(static_cast<std::size_t>(meter.bar() / time::eighth_note), '.');
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        band::BassWriter writer(seed);
        const auto notes = writer.next({bar_of(meter, "Gm7", bass, feel)},
                                       {bar_of(meter, "C7", bass, feel)}, std::nullopt);
        for (const auto& note : notes) {
            auto& here = line.at(static_cast<std::size_t>(note.at / time::eighth_note));
            const bool given = seed == 1 || here == 'x';
            here = given ? 'x' : here == '.' ? 'o' : here;
        }
    }
    return line;
}

const std::vector<std::pair<Bass, Feel>> manners = {
    {Bass::walking, Feel::swing},   {Bass::walking, Feel::ballad}, {Bass::two_feel, Feel::swing},
    {Bass::two_feel, Feel::ballad}, {Bass::roots, Feel::swing},    {Bass::walking, Feel::bossa},
};

}  // namespace

TEST_CASE("a bass walks in quarters in 2/2 and 2/4, and in what is twice as long in half-time") {
    CHECK(places(meter_of(2, 2), Bass::walking) == "x.x.x.x.");
    CHECK(places(meter_of(2, 4), Bass::walking) == "x.x.");
    CHECK(places(*Meter(4).half_time(), Bass::walking) == "x...x...");
    CHECK(places(*Meter(4).double_time(), Bass::walking) == "xxxxxxxx");
}

TEST_CASE(
    "in 6/8, 9/8 and 12/8 a bass walks in beats, here and there with an eighth into a chord") {
    CHECK(places(meter_of(6, 8), Bass::walking) == "x..x.o");
    CHECK(places(meter_of(9, 8), Bass::walking) == "x..x..x.o");
    CHECK(places(meter_of(12, 8), Bass::walking) == "x..x..x..x.o");
}

TEST_CASE("in two a bass plays the halves of 2/2 and 12/8, both beats of 2/4 and 6/8, 9/8 in one") {
    CHECK(places(meter_of(2, 2), Bass::two_feel) == "x...x.o.");
    CHECK(places(meter_of(2, 4), Bass::two_feel) == "x.x.");
    CHECK(places(meter_of(6, 8), Bass::two_feel) == "x..x.o");
    CHECK(places(meter_of(9, 8), Bass::two_feel) == "x.......o");
    CHECK(places(meter_of(12, 8), Bass::two_feel) == "x.....x....o");
    CHECK(places(*Meter(4).double_time(), Bass::two_feel) == "x.x.x.xo");
}

TEST_CASE("a bossa's bass is the same in 2/2, and goes ahead by the last eighth in 6/8") {
    CHECK(places(meter_of(2, 2), Bass::walking, Feel::bossa) == "x..xx..x");
    CHECK(places(meter_of(6, 8), Bass::walking, Feel::bossa) == "x..x.x");
}

TEST_CASE("a bass keeps its rules in every meter and manner") {
    for (const auto& [name, meter] : tests::every_meter()) {
        for (std::uint64_t seed = 1; seed <= 25; ++seed) {
            for (const auto& [bass, feel] : manners) {
                auto bars = tests::random_changes(meter, seed);
                for (auto& bar : bars) {
                    bar.bass = bass;
                    bar.feel = feel;
                    bar.seasoning = band::Seasoning::skips_and_dead_notes;
                }
                const auto gig = tests::gig_of(meter, bars, 2);
                const auto faults = tests::BassTeacher(gig).faults_of(tests::play(gig, seed));
                CAPTURE(name, seed, static_cast<int>(bass), chart::name_of(feel), faults);
                CHECK(faults.empty());
            }
        }
    }
}

TEST_CASE("a bass keeps its rules from a bar of one meter into a bar of another") {
    const auto meters = tests::every_meter();
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
        tests::Gig gig{{}, {}, true, {}};
        for (std::uint64_t stretch = 0; stretch < 3; ++stretch) {
            gig.stretches.push_back(gig.bars.size());
            for (std::uint64_t part = 0; part < 3; ++part) {
                const auto which = (seed * 7 + stretch * 5 + part * 11) % meters.size();
                auto bars =
                    tests::random_changes(meters[which].meter, seed * 9 + stretch * 3 + part);
                bars.resize(4);
                for (auto& bar : bars) bar.bass = seed % 3 == 0 ? Bass::two_feel : Bass::walking;
                gig.bars.insert(gig.bars.end(), bars.begin(), bars.end());
            }
        }
        const auto faults = tests::BassTeacher(gig).faults_of(tests::play(gig, seed));
        CAPTURE(seed, faults);
        CHECK(faults.empty());
    }
}

TEST_CASE("what leads into another meter's bar comes right before its bar line") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        band::BassWriter writer(seed);
        const auto notes = writer.next(
            {bar_of(meter_of(9, 8), "Gm7", Bass::walking), bar_of(Meter(4), "C7", Bass::walking)},
            {bar_of(Meter(3), "F6", Bass::walking)}, std::nullopt);
        std::vector<Ticks> on_beats;
        for (const auto& note : notes) {
            if (note.at != Ticks(3840)) on_beats.push_back(note.at);
        }
        CHECK(on_beats == std::vector{Ticks(0), Ticks(1440), Ticks(2880), Ticks(4320), Ticks(5280),
                                      Ticks(6240), Ticks(7200)});
    }
}

TEST_CASE("what is held by a fermata rings until the next bar, wherever that is") {
    auto held = bar_of(Meter(4), "Gm7", Bass::two_feel);
    held.hold = time::quarter_note * 3;
    band::BassWriter writer(1);
    const auto notes =
        writer.next({held, bar_of(Meter(4), "Gm7", Bass::two_feel)}, {}, std::nullopt);
    REQUIRE(notes.size() == 4);
    CHECK(notes[1].at + notes[1].length > Ticks(960 * 6));
    CHECK(notes[2].at == Ticks(960 * 7));
}
