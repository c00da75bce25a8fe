// What a drummer plays in each meter, as a line of text: a letter a beat-part, "." where nothing
// is struck, "|" ahead of each written beat.

#include "support/catch.hpp"
#include "support/meters.hpp"

#include <compline/band/drums.hpp>

#include <cstdlib>
#include <iostream>
#include <set>
#include <string>
#include <utility>
#include <vector>

using namespace compline;
using band::Drum;
using chart::Drums;
using chart::Feel;
using time::Meter;
using time::Ticks;

namespace {

Meter meter_of(int above, int below) { return *Meter::find(above, below); }
const Meter half_time = *Meter(4).half_time();
const Meter double_time = *Meter(4).double_time();

/// A bar of one drum in steps of an eighth, or shorter ones.
std::string line_of(const std::vector<band::Stroke>& strokes, Drum drum, Meter meter,
                    Ticks step = time::eighth_note) {
    std::string line(static_cast<std::size_t>(meter.bar() / step), '.');
    for (const auto& stroke : strokes) {
        if (stroke.drum != drum) continue;
        CHECK(stroke.at % step == Ticks(0));
        line.at(static_cast<std::size_t>(stroke.at / step)) = 'x';
    }
    return line;
}

band::DrumBar bar_of(Drums drums, Feel feel = Feel::swing) {
    band::DrumBar bar;
    bar.manner.drums = drums;
    bar.manner.feel = feel;
    return bar;
}

struct Kit {
    std::string ride;
    std::string foot;
    std::string kick;
    bool operator==(const Kit&) const = default;
};

std::ostream& operator<<(std::ostream& out, const Kit& kit) {
    return out << "ride " << kit.ride << " foot " << kit.foot << " kick " << kit.kick;
}

Kit kit_of(Meter meter, Ticks step = time::eighth_note, const band::DrumBar& bar = {}) {
    const auto strokes = band::drum_bar(bar, meter);
    return {line_of(strokes, Drum::ride, meter, step),
            line_of(strokes, Drum::hihat_foot, meter, step),
            line_of(strokes, Drum::kick, meter, step)};
}

/// The count-in in eighths from its first click on.
std::string count_of(Meter meter, int bars) {
    std::string line(static_cast<std::size_t>(meter.bar() * bars / time::eighth_note), '.');
    for (const auto& click : band::count_in(meter, bars)) {
        CHECK(click.drum == Drum::stick);
        line.at(static_cast<std::size_t>((click.at + meter.bar() * bars) / time::eighth_note)) =
            click.velocity > 95   ? 'X'
            : click.velocity > 80 ? 'x'
                                  : '-';
    }
    return line;
}

}  // namespace

TEST_CASE("2/4 is half a bar of 4/4") {
    CHECK(kit_of(meter_of(2, 4)) == Kit{"x.xx", "..x.", "x.x."});
}

TEST_CASE("in 2/2 the ride goes in quarters over a foot in two") {
    CHECK(kit_of(meter_of(2, 2)) == Kit{"x.xxx.xx", "....x...", "x...x..."});
}

TEST_CASE("6/8, 9/8 and 12/8 have eighths on the ride, and the foot where the bar leans") {
    CHECK(kit_of(meter_of(6, 8)) == Kit{"xxxxxx", "...x..", "x....."});
    CHECK(kit_of(meter_of(9, 8)) == Kit{"xxxxxxxxx", "...x..x..", "x........"});
    CHECK(kit_of(meter_of(12, 8)) == Kit{"xxxxxxxxxxxx", "...x.....x..", "x.....x....."});
}

TEST_CASE("half-time is the pattern twice as long, the hi-hat on the third quarter") {
    CHECK(kit_of(half_time) == Kit{"x...x.x.", "....x...", "x...x..."});
    CHECK(kit_of(*Meter(6).half_time()) == Kit{"x...x.x.x...", "....x.......", "x.......x..."});
    CHECK(kit_of(*meter_of(2, 4).half_time()) == Kit{"x.x.", "....", "x..."});
}

TEST_CASE("double-time is the pattern twice as fast, the hi-hat on every off-beat") {
    CHECK(kit_of(double_time, Ticks(240)) ==
          Kit{"x.xxx.xxx.xxx.xx", "..x...x...x...x.", "x...x...x...x..."});
    CHECK(kit_of(*Meter(3).double_time(), Ticks(240)) ==
          Kit{"x.xxx.xxx.xx", "..x...x...x.", "x...x...x..."});
}

TEST_CASE("the foot closes where it is asked to in every meter, in double-time in both halves") {
    band::DrumBar bar;
    bar.hihat_beats = {1};
    CHECK(kit_of(meter_of(6, 8), time::eighth_note, bar).foot == "x.....");
    CHECK(kit_of(meter_of(2, 2), time::eighth_note, bar).foot == "x.......");
    CHECK(kit_of(double_time, time::eighth_note * 1, bar_of(Drums::hats)).foot == ".x.x.x.x");
    bar.manner.drums = Drums::hats;
    CHECK(kit_of(double_time, time::eighth_note, bar).foot == "x...x...");
    bar.hihat_beats = {2, 4};
    CHECK(kit_of(meter_of(2, 4), time::eighth_note, bar).foot == "..x.");
}

TEST_CASE("quarters are what the ride goes in: dotted ones in 6/8, halves in half-time") {
    const auto quarters = [](Meter meter) {
        return kit_of(meter, time::eighth_note, bar_of(Drums::quarters)).ride;
    };
    CHECK(quarters(meter_of(2, 2)) == "x.x.x.x.");
    CHECK(quarters(meter_of(12, 8)) == "x..x..x..x..");
    CHECK(quarters(half_time) == "x...x...");
    CHECK(quarters(double_time) == "xxxxxxxx");
}

TEST_CASE("brushes in 6/8 tap the first and third of three eighths over a round a beat") {
    const auto meter = meter_of(6, 8);
    const auto strokes = band::drum_bar(bar_of(Drums::brushes), meter);
    CHECK(line_of(strokes, Drum::brush_tap, meter) == "x.xx.x");
    CHECK(line_of(strokes, Drum::brush_sweep, meter) == "x..x..");
    const auto ballad = band::drum_bar(bar_of(Drums::brushes, Feel::ballad), meter);
    CHECK(line_of(ballad, Drum::brush_tap, meter) == "...x..");
    CHECK(line_of(ballad, Drum::brush_sweep, meter) == "x.xx.x");
}

TEST_CASE("a bossa keeps its two bars in 2/2, has both in one in double-time, and leans in 6/8") {
    auto bar = bar_of(Drums::ride, Feel::bossa);
    const auto stick = [&](Meter meter, Ticks step) {
        return line_of(band::drum_bar(bar, meter), Drum::cross_stick, meter, step);
    };
    CHECK(stick(meter_of(2, 2), time::eighth_note) == "x..x..x.");
    CHECK(stick(double_time, Ticks(240)) == "x..x..x...x..x..");
    CHECK(stick(meter_of(12, 8), time::eighth_note) == "...x.....x..");
    bar.number = 1;
    CHECK(stick(meter_of(2, 2), time::eighth_note) == "..x..x..");
    CHECK(stick(meter_of(12, 8), time::eighth_note) == "..x.....x...");
}

TEST_CASE("a fill takes the last two beats of the ride, in 6/8 their first and third eighths") {
    auto bar = bar_of(Drums::ride);
    bar.fill = true;
    const auto hands = [&](Meter meter) {
        const auto strokes = band::drum_bar(bar, meter);
        return line_of(strokes, Drum::snare, meter) + " " + line_of(strokes, Drum::tom, meter);
    };
    CHECK(hands(meter_of(2, 4)) == "xx.. ..xx");
    CHECK(hands(meter_of(2, 2)) == "....xx.. ......xx");
    CHECK(hands(meter_of(6, 8)) == "x.x... ...x.x");
    CHECK(hands(meter_of(12, 8)) == "......x.x... .........x.x");
    CHECK(hands(half_time) == "x.x..... ....x.x.");
}

TEST_CASE("2/2 and 6/8 are counted in by their beats, then by what goes between them") {
    CHECK(count_of(meter_of(2, 2), 2) == "X...x...X.x.x.x.");
    CHECK(count_of(meter_of(2, 2), 1) == "X.x.x.x.");
    CHECK(count_of(meter_of(2, 4), 2) == "X...X.x.");
    CHECK(count_of(meter_of(6, 8), 2) == "X..x..X--x--");
    CHECK(count_of(meter_of(9, 8), 1) == "X--x--x--");
    CHECK(count_of(meter_of(12, 8), 2) == "X..x..x..x..X--x--x--x--");
}

TEST_CASE("half-time and double-time are counted in as they are written") {
    CHECK(count_of(half_time, 2) == count_of(Meter(4), 2));
    CHECK(count_of(double_time, 2) == count_of(Meter(4), 2));
    CHECK(count_of(Meter(4), 2) == "X...x...X.x.x.x.");
}

TEST_CASE("in every meter every bar of every manner is in order, within the bar, without doubles") {
    for (const auto& [name, meter] : tests::every_meter()) {
        for (int kind = 0; kind < 20 * 32; ++kind) {
            auto bar = bar_of(static_cast<Drums>(kind % 5), static_cast<Feel>(kind / 5 % 4));
            const int extras = kind / 20;
            bar.manner.breathing = bar.light_fill = (extras & 1) != 0;
            bar.fill = (extras & 2) != 0;
            bar.crash = (extras & 4) != 0;
            if ((extras & 8) != 0) bar.kicks = {Ticks(0), time::eighth_note};
            bar.number = extras;
            bar.phrase = static_cast<std::uint64_t>(extras);
            bar.figure = extras % band::light_figures;
            CAPTURE(name, chart::name_of(bar.manner.drums), chart::name_of(bar.manner.feel),
                    extras);
            std::set<std::pair<Ticks, Drum>> struck;
            Ticks before;
            for (const auto& stroke : band::drum_bar(bar, meter)) {
                REQUIRE(stroke.at >= before);
                REQUIRE(stroke.at < meter.bar());
                REQUIRE(stroke.velocity >= 1);
                REQUIRE(stroke.velocity <= 110);
                REQUIRE(struck.emplace(stroke.at, stroke.drum).second);
                before = stroke.at;
            }
            const bool has_hands =
                bar.manner.drums != Drums::off && bar.manner.drums != Drums::hats;
            if (has_hands) REQUIRE_FALSE(struck.empty());
        }
    }
}
