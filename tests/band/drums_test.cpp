#include "support/catch.hpp"

#include <compline/band/drums.hpp>

#include <algorithm>
#include <vector>

using namespace compline;
using band::Drum;
using time::eighth_note;
using time::Meter;
using time::Ticks;

namespace {

/// Where a drum is struck in the first bar, in eighths from 0.
std::vector<int> eighths(const std::vector<band::Stroke>& strokes, Drum drum, Meter meter) {
    std::vector<int> found;
    for (const auto& stroke : strokes) {
        if (stroke.drum != drum || stroke.at >= meter.bar()) continue;
        CHECK(stroke.at % eighth_note == Ticks(0));
        found.push_back(static_cast<int>(stroke.at / eighth_note));
    }
    return found;
}

std::vector<std::int64_t> clicks_at(Meter meter, int bars) {
    std::vector<std::int64_t> beats;
    for (const auto& click : band::count_in(meter, bars)) {
        CHECK(click.drum == Drum::stick);
        beats.push_back(click.at.count() / 960);
    }
    return beats;
}

std::vector<band::Stroke> bar_of(Meter meter, const band::DrumBar& bar = {}) {
    return band::drum_bar(bar, meter);
}

int velocity_at(const std::vector<band::Stroke>& strokes, Drum drum, Ticks at) {
    for (const auto& stroke : strokes) {
        if (stroke.drum == drum && stroke.at == at) return stroke.velocity;
    }
    return 0;
}

}  // namespace

TEST_CASE("in four the ride skips after 2 and 4, the hi-hat closes on 2 and 4") {
    const auto strokes = bar_of(Meter(4));
    CHECK(eighths(strokes, Drum::ride, Meter(4)) == std::vector<int>{0, 2, 3, 4, 6, 7});
    CHECK(eighths(strokes, Drum::hihat_foot, Meter(4)) == std::vector<int>{2, 6});
    CHECK(eighths(strokes, Drum::kick, Meter(4)) == std::vector<int>{0, 2, 4, 6});
}

TEST_CASE("a waltz has one skip, and the hi-hat on 2") {
    const auto strokes = bar_of(Meter(3));
    CHECK(eighths(strokes, Drum::ride, Meter(3)) == std::vector<int>{0, 2, 3, 4});
    CHECK(eighths(strokes, Drum::hihat_foot, Meter(3)) == std::vector<int>{2});
    CHECK(eighths(strokes, Drum::kick, Meter(3)) == std::vector<int>{0});
}

TEST_CASE("2 and 4 lean on the ride, and the kick is far softer than anything else") {
    const auto strokes = bar_of(Meter(4));
    const auto ride_on = [&](int beat) {
        return velocity_at(strokes, Drum::ride, time::quarter_note * (beat - 1));
    };
    CHECK(ride_on(2) > ride_on(1));
    CHECK(ride_on(4) > ride_on(3));
    for (const auto& stroke : strokes) {
        CHECK(stroke.velocity >= 1);
        CHECK(stroke.velocity <= 127);
        CHECK((stroke.drum == Drum::kick) == (stroke.velocity < 45));
    }
}

TEST_CASE("the count-in is half time, then every beat, and ends where bar 1 begins") {
    CHECK(clicks_at(Meter(4), 2) == std::vector<std::int64_t>{-8, -6, -4, -3, -2, -1});
    CHECK(clicks_at(Meter(4), 1) == std::vector<std::int64_t>{-4, -3, -2, -1});
    CHECK(clicks_at(Meter(3), 2) == std::vector<std::int64_t>{-6, -3, -2, -1});
    CHECK(clicks_at(Meter(3), 1) == std::vector<std::int64_t>{-3, -2, -1});
    CHECK(clicks_at(Meter(4), 0).empty());
}

namespace {

band::DrumBar played(chart::Drums drums, chart::Feel feel = chart::Feel::swing) {
    band::DrumBar bar;
    bar.manner = {feel, drums, chart::Bass::walking, true};
    return bar;
}

bool has(const std::vector<band::Stroke>& strokes, Drum drum) {
    return std::any_of(strokes.begin(), strokes.end(),
                       [&](const band::Stroke& s) { return s.drum == drum; });
}

}  // namespace

TEST_CASE("five is three and two, six is twice a waltz") {
    const auto five = bar_of(Meter(5));
    CHECK(eighths(five, Drum::ride, Meter(5)) == std::vector<int>{0, 2, 3, 4, 6, 8, 9});
    CHECK(eighths(five, Drum::hihat_foot, Meter(5)) == std::vector<int>{2, 8});
    CHECK(eighths(five, Drum::kick, Meter(5)) == std::vector<int>{0, 6});
    const auto six = bar_of(Meter(6));
    CHECK(eighths(six, Drum::ride, Meter(6)) == std::vector<int>{0, 2, 3, 4, 6, 8, 9, 10});
    CHECK(eighths(six, Drum::hihat_foot, Meter(6)) == std::vector<int>{2, 8});
    CHECK(eighths(six, Drum::kick, Meter(6)) == std::vector<int>{0, 6});
}

TEST_CASE("the foot closes where it is asked to, as on 2 and 3 of a waltz") {
    band::DrumBar bar;
    bar.hihat_beats = {2, 3};
    CHECK(eighths(bar_of(Meter(3), bar), Drum::hihat_foot, Meter(3)) == std::vector<int>{2, 4});
}

TEST_CASE("hats are the foot alone, quarters the ride on every beat, off is nobody") {
    const auto hats = bar_of(Meter(4), played(chart::Drums::hats));
    CHECK(hats.size() == 2);
    CHECK(eighths(hats, Drum::hihat_foot, Meter(4)) == std::vector<int>{2, 6});
    auto bar = played(chart::Drums::quarters);
    const auto quarters = bar_of(Meter(4), bar);
    CHECK(eighths(quarters, Drum::ride, Meter(4)) == std::vector<int>{0, 2, 4, 6});
    CHECK_FALSE(has(quarters, Drum::kick));
    bar = played(chart::Drums::off);
    bar.kicks = {Ticks(0)};
    bar.fill = bar.crash = true;
    CHECK(bar_of(Meter(4), bar).empty());
}

TEST_CASE("brushes tap the ride's rhythm over sweeps; in a ballad there is air") {
    const auto brushes = bar_of(Meter(4), played(chart::Drums::brushes));
    CHECK(eighths(brushes, Drum::brush_tap, Meter(4)) == std::vector<int>{0, 2, 3, 4, 6, 7});
    CHECK(eighths(brushes, Drum::brush_sweep, Meter(4)) == std::vector<int>{0, 4});
    CHECK_FALSE(has(brushes, Drum::ride));
    const auto ballad = bar_of(Meter(4), played(chart::Drums::brushes, chart::Feel::ballad));
    CHECK(eighths(ballad, Drum::brush_tap, Meter(4)) == std::vector<int>{2, 6});
    CHECK(eighths(ballad, Drum::brush_sweep, Meter(4)) == std::vector<int>{0, 1, 2, 3, 4, 5, 6, 7});
}

TEST_CASE("a bossa has even eighths and a cross-stick that takes two bars") {
    auto bar = played(chart::Drums::ride, chart::Feel::bossa);
    const auto first = bar_of(Meter(4), bar);
    CHECK(eighths(first, Drum::ride, Meter(4)) == std::vector<int>{0, 1, 2, 3, 4, 5, 6, 7});
    CHECK(eighths(first, Drum::cross_stick, Meter(4)) == std::vector<int>{0, 3, 6});
    CHECK(eighths(first, Drum::kick, Meter(4)) == std::vector<int>{0, 3, 4, 7});
    bar.number = 1;
    CHECK(eighths(bar_of(Meter(4), bar), Drum::cross_stick, Meter(4)) == std::vector<int>{2, 5});
}

TEST_CASE("a kick of the whole band is struck on snare and kick drum, louder than the time") {
    auto bar = played(chart::Drums::ride);
    bar.kicks = {eighth_note, Ticks(960 * 3)};
    const auto strokes = bar_of(Meter(4), bar);
    for (const Ticks at : bar.kicks) {
        CHECK(velocity_at(strokes, Drum::snare, at) > 80);
        CHECK(velocity_at(strokes, Drum::kick, at) > 40);
    }
    CHECK(eighths(strokes, Drum::snare, Meter(4)) == std::vector<int>{1, 6});
    const auto kicks = std::count_if(strokes.begin(), strokes.end(),
                                     [](const auto& s) { return s.drum == Drum::kick; });
    CHECK(kicks == 5);  // four feathered, one of them struck, and one between
}

TEST_CASE("a fill takes the hands off the time for the last two beats, the foot stays") {
    auto bar = played(chart::Drums::ride);
    bar.fill = true;
    const auto strokes = bar_of(Meter(4), bar);
    CHECK(eighths(strokes, Drum::ride, Meter(4)) == std::vector<int>{0, 2, 3});
    CHECK(eighths(strokes, Drum::snare, Meter(4)) == std::vector<int>{4, 5});
    CHECK(eighths(strokes, Drum::tom, Meter(4)) == std::vector<int>{6, 7});
    CHECK(eighths(strokes, Drum::hihat_foot, Meter(4)) == std::vector<int>{2, 6});
}

TEST_CASE("a crash on 1 stands in the ride's place, with the kick") {
    auto bar = played(chart::Drums::ride);
    bar.crash = true;
    const auto strokes = bar_of(Meter(4), bar);
    CHECK(eighths(strokes, Drum::crash, Meter(4)) == std::vector<int>{0});
    CHECK(eighths(strokes, Drum::ride, Meter(4)) == std::vector<int>{2, 3, 4, 6, 7});
    CHECK(velocity_at(strokes, Drum::kick, Ticks(0)) > 40);
}

TEST_CASE("every bar of every manner is in order of time, with sane velocities and no doubles") {
    for (const int beats : {3, 4, 5, 6}) {
        for (const auto drums : {chart::Drums::ride, chart::Drums::brushes, chart::Drums::hats,
                                 chart::Drums::quarters, chart::Drums::off}) {
            for (const auto feel : {chart::Feel::swing, chart::Feel::straight, chart::Feel::bossa,
                                    chart::Feel::ballad}) {
                for (int extras = 0; extras < 8; ++extras) {
                    auto bar = played(drums, feel);
                    bar.fill = (extras & 1) != 0;
                    bar.crash = (extras & 2) != 0;
                    bar.number = extras;
                    if ((extras & 4) != 0) bar.kicks = {Ticks(0), eighth_note, Ticks(1920)};
                    const auto strokes = bar_of(Meter(beats), bar);
                    for (std::size_t i = 0; i < strokes.size(); ++i) {
                        REQUIRE(strokes[i].at >= Ticks(0));
                        REQUIRE(strokes[i].at < Meter(beats).bar());
                        REQUIRE(strokes[i].velocity >= 1);
                        REQUIRE(strokes[i].velocity <= 127);
                        if (i == 0) continue;
                        REQUIRE(strokes[i - 1].at <= strokes[i].at);
                        const bool twice = strokes[i - 1].at == strokes[i].at &&
                                           strokes[i - 1].drum == strokes[i].drum;
                        CAPTURE(beats, extras, chart::name_of(drums), chart::name_of(feel));
                        REQUIRE_FALSE(twice);
                    }
                }
            }
        }
    }
}

TEST_CASE("five and six are counted in by their groups") {
    CHECK(clicks_at(Meter(5), 2) == std::vector<std::int64_t>{-10, -7, -5, -4, -3, -2, -1});
    CHECK(clicks_at(Meter(6), 2) == std::vector<std::int64_t>{-12, -9, -6, -5, -4, -3, -2, -1});
}
