#include "support/catch.hpp"

#include <compline/band/drums.hpp>

#include <algorithm>
#include <vector>

using namespace compline;
using band::Drum;
using time::Meter;
using time::Ticks;

namespace {

/// Where a drum is struck in the first bar, in eighths from 0.
std::vector<int> eighths(const std::vector<band::Stroke>& strokes, Drum drum, Meter meter) {
    std::vector<int> found;
    for (const auto& stroke : strokes) {
        if (stroke.drum != drum || stroke.at >= meter.bar()) continue;
        CHECK(stroke.at % Ticks(480) == Ticks(0));
        found.push_back(static_cast<int>(stroke.at / Ticks(480)));
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

int velocity_at(const std::vector<band::Stroke>& strokes, Drum drum, Ticks at) {
    for (const auto& stroke : strokes) {
        if (stroke.drum == drum && stroke.at == at) return stroke.velocity;
    }
    return 0;
}

}  // namespace

TEST_CASE("in four the ride skips after 2 and 4, the hi-hat closes on 2 and 4") {
    const auto strokes = band::keep_time(Meter(4), 1);
    CHECK(eighths(strokes, Drum::ride, Meter(4)) == std::vector<int>{0, 2, 3, 4, 6, 7});
    CHECK(eighths(strokes, Drum::hihat_foot, Meter(4)) == std::vector<int>{2, 6});
    CHECK(eighths(strokes, Drum::kick, Meter(4)) == std::vector<int>{0, 2, 4, 6});
}

TEST_CASE("a waltz has one skip, and the hi-hat on 2 and 3") {
    const auto strokes = band::keep_time(Meter(3), 1);
    CHECK(eighths(strokes, Drum::ride, Meter(3)) == std::vector<int>{0, 2, 3, 4});
    CHECK(eighths(strokes, Drum::hihat_foot, Meter(3)) == std::vector<int>{2, 4});
    CHECK(eighths(strokes, Drum::kick, Meter(3)) == std::vector<int>{0});
}

TEST_CASE("2 and 4 lean on the ride, and the kick is far softer than anything else") {
    const auto strokes = band::keep_time(Meter(4), 1);
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

TEST_CASE("every bar is the first bar again, and time never goes backwards") {
    for (const Meter meter : {Meter(3), Meter(4)}) {
        const auto bar = band::keep_time(meter, 1);
        const auto strokes = band::keep_time(meter, 50);
        REQUIRE(strokes.size() == 50 * bar.size());
        for (std::size_t i = 0; i < strokes.size(); ++i) {
            auto expected = bar[i % bar.size()];
            expected.at += meter.bar() * static_cast<std::int64_t>(i / bar.size());
            CHECK(strokes[i] == expected);
            if (i > 0) CHECK(strokes[i - 1].at <= strokes[i].at);
        }
    }
}

TEST_CASE("the count-in is half time, then every beat, and ends where bar 1 begins") {
    CHECK(clicks_at(Meter(4), 2) == std::vector<std::int64_t>{-8, -6, -4, -3, -2, -1});
    CHECK(clicks_at(Meter(4), 1) == std::vector<std::int64_t>{-4, -3, -2, -1});
    CHECK(clicks_at(Meter(3), 2) == std::vector<std::int64_t>{-6, -3, -2, -1});
    CHECK(clicks_at(Meter(3), 1) == std::vector<std::int64_t>{-3, -2, -1});
    CHECK(clicks_at(Meter(4), 0).empty());
}
