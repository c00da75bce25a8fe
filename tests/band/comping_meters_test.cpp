// The comping guitar in 2/2, 2/4, 6/8, 9/8 and 12/8, and from one meter into another.

#include "support/catch.hpp"
#include "support/meters.hpp"

#include <compline/band/comping.hpp>
#include <compline/harmony/chord.hpp>

#include <set>
#include <vector>

using namespace compline;
using time::Meter;
using time::Ticks;

namespace {

/// Eight bars, two chords in every second one.
std::vector<band::CompBar> bars_of(const std::vector<Meter>& meters, chart::Feel feel) {
    std::vector<band::CompBar> bars;
    Ticks start;
    for (std::size_t i = 0; i < 8; ++i) {
        const auto meter = meters[i % meters.size()];
        const auto one = harmony::read_chord(i % 4 == 0 ? "Gm7" : "Fmaj7");
        bars.push_back({start, static_cast<int>(i), feel, {{Ticks(0), meter.bar(), one}}, {}});
        if (i % 2 == 1 && meter.beats() % 2 == 0) {
            const Ticks half(meter.bar().count() / 2);
            bars.back().slots = {{Ticks(0), half, one}, {half, half, harmony::read_chord("C7")}};
        }
        bars.back().meter = meter;
        start += meter.bar();
    }
    return bars;
}

/// Each chord is struck in its place or on the off-beat before it, and nothing rings past its end.
void check(const std::vector<band::CompBar>& bars, std::uint64_t seed) {
    const Ticks end = bars.back().start + bars.back().meter->bar();
    Ticks before(-1);
    for (const auto& strum : band::comp(bars, Meter(4), seed)) {
        CHECK(strum.at > before);
        CHECK(strum.at + strum.length <= end);
        CHECK(strum.at % time::eighth_note == Ticks(0));
        const auto ahead = strum.in_form - strum.at;
        CHECK((ahead == Ticks(0) || ahead == time::eighth_note));
        before = strum.at;
    }
}

}  // namespace

TEST_CASE("a guitar comps in every meter, each strum where its chord is or an eighth ahead") {
    for (const auto& [name, meter] : tests::every_meter()) {
        CAPTURE(name);
        for (const auto feel : {chart::Feel::swing, chart::Feel::bossa, chart::Feel::ballad}) {
            for (std::uint64_t seed = 1; seed <= 20; ++seed) check(bars_of({meter}, feel), seed);
        }
    }
}

TEST_CASE("a guitar comps on from a bar of one meter into a bar of another") {
    const std::vector<Meter> meters{Meter(4), *Meter::find(9, 8), *Meter::find(2, 4),
                                    *Meter::find(6, 8)};
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        check(bars_of(meters, chart::Feel::swing), seed);
    }
}

TEST_CASE("in 12/8 a guitar strikes beats and the eighths before them, never the middle eighth") {
    std::set<std::int64_t> in_beat;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const auto bars = bars_of({*Meter::find(12, 8)}, chart::Feel::swing);
        for (const auto& strum : band::comp(bars, Meter(4), seed)) {
            in_beat.insert(strum.at.count() % 1440 / 480);
        }
    }
    CHECK(in_beat == std::set<std::int64_t>{0, 2});
}
