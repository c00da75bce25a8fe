#include "roadmap/slow_walk.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <cmath>
#include <vector>

using namespace compline;
using roadmap::NewTempo;
using roadmap::RoadMap;
using time::Bpm;
using time::Seconds;
using time::Swing;
using time::Ticks;

namespace {

constexpr Ticks bar_of_four(3840);
constexpr unsigned many_scenes = 200;
constexpr int many_bars = 100;  // of what goes on until it is stopped

/// Where the eighth of each beat falls, in seconds, summed up from bar to bar.
double second_of(const tests::WalkedBar& bar, Ticks in_bar) {
    const double unit = bar.swung > 0 ? bar.swung : 1;
    const double at = static_cast<double>(in_bar.count()) / 960 / unit;
    const auto units = std::floor(at);
    const double rest = at - units;
    const double off_beat = bar.swing / (1 + bar.swing);
    const double swung =
        rest < 0.5 ? rest * 2 * off_beat : off_beat + (rest - 0.5) * 2 * (1 - off_beat);
    return bar.seconds + (units + swung) * unit * 60 / bar.bpm;
}

chart::Form four_bars(const chart::AskedManner& manner = {}) {
    auto form = tests::bare_bars(4);
    for (auto& bar : form.bars) bar.manner = manner;
    form.chart.manner = manner;
    return form;
}

RoadMap until_stopped(double bpm) {
    auto asked = roadmap::Asked::of({1, 4}, std::nullopt);
    asked.tempo = Bpm(bpm);
    return {four_bars(), asked};
}

}  // namespace

TEST_CASE("what is written is played where bars, tempi and swing add up to") {
    for (unsigned seed = 0; seed < many_scenes; ++seed) {
        const auto scene = tests::random_scene(seed);
        const auto map = scene.map();
        const tests::SlowWalk walk(scene);
        for (const auto& bar : walk.bars(many_bars)) {
            const auto length = bar.length;
            for (Ticks in_bar; in_bar < length; in_bar += Ticks(240)) {
                CAPTURE(seed, bar.number, in_bar.count());
                const auto at = map.time_of(bar.start + in_bar).count();
                REQUIRE(std::fabs(at - second_of(bar, in_bar)) < 1e-9);
                REQUIRE(map.tempo_at(bar.start + in_bar) == Bpm(bar.bpm));
                REQUIRE(map.swing_at(bar.start + in_bar).ratio() == bar.swing);
            }
        }
    }
}

TEST_CASE("written and played positions are each other's inverse across tempi and feels") {
    for (unsigned seed = 0; seed < many_scenes; ++seed) {
        const auto scene = tests::random_scene(seed);
        const auto map = scene.map();
        const auto last = tests::SlowWalk(scene).bars(many_bars).back().start;
        for (Ticks at(-4000); at < last; at += Ticks(397)) {
            CAPTURE(seed, at.count());
            const auto heard = map.time_of(at);
            REQUIRE(std::fabs(map.written_at(heard).count() - time::Beats(at).count()) < 1e-9);
            // A position is reached when its time has come, and holds until the next one.
            const Seconds moment(1e-6);
            const auto reached = map.tempi().time_of(at) + moment;
            REQUIRE(map.position_at(reached) == at);
            REQUIRE(map.position_at(map.tempi().time_of(at + Ticks(1)) - moment) == at);
            const auto place = map.place_at(reached);
            REQUIRE(place.number == map.place_at(at).number);
            REQUIRE(place.in_bar == map.place_at(at).in_bar);
        }
    }
}

TEST_CASE("without a decision a road map has one tempo, that of the chart or the one asked for") {
    auto form = four_bars();
    form.chart.tempo = Bpm(97);
    auto asked = roadmap::Asked::of({1, 4}, 2);
    CHECK(RoadMap(form, asked).tempo() == Bpm(97));
    asked.tempo = Bpm(132);
    const RoadMap map(form, asked);
    CHECK(map.tempo() == Bpm(132));
    CHECK(map.tempi() == time::TempoMap(Bpm(132)));
    CHECK(map.time_of(bar_of_four).count() == 4 * (60.0 / 132));
}

TEST_CASE("slow brushes swing 2 to 1 in the bars that they are played in, whoever asked for them") {
    using chart::Drums;
    auto form = four_bars();
    form.bars[1].manner.drums = Drums::ride;
    auto asked = roadmap::Asked::of({1, 4}, 2);
    asked.way.stretches[1].manner.drums = Drums::hats;
    asked.tempo = Bpm(60);
    const auto by_tempo = Swing::at(Bpm(60));
    const RoadMap map(form, asked);
    CHECK(map.swing() == Swing(2));
    CHECK(map.swing_at(Ticks(0)) == Swing(2));
    CHECK(map.swing_at(bar_of_four) == by_tempo);
    CHECK(map.swing_at(bar_of_four * 4) == by_tempo);
    asked.manner.drums = Drums::brushes;
    const RoadMap brushed(form, asked);
    for (int bar = 0; bar < 8; ++bar) CHECK(brushed.swing_at(bar_of_four * bar) == Swing(2));
}

TEST_CASE("a ratio that the player asks for holds in swung bars, and none turns the chart's off") {
    auto form = four_bars();
    form.chart.swing_ratio = 1.5;
    form.bars[2].manner.feel = chart::Feel::bossa;
    auto asked = roadmap::Asked::of({1, 4}, 1);
    asked.tempo = Bpm(200);
    CHECK(RoadMap(form, asked).swing() == Swing(1.5));
    asked.swing = roadmap::AskedSwing{2.5};
    const RoadMap map(form, asked);
    CHECK(map.bar(1).swing == Swing(2.5));
    CHECK(map.bar(3).swing == Swing::straight());
    asked.swing = roadmap::AskedSwing{};
    CHECK(RoadMap(form, asked).bar(1).swing == Swing::at(Bpm(200)));
}

TEST_CASE("faster bars swing less, each as its own tempo has it, and beats stay") {
    const auto map = until_stopped(120).with({5, NewTempo{Bpm(240)}});
    CHECK(map.bar(4).swing == Swing::at(Bpm(120)));
    CHECK(map.bar(5).swing == Swing::at(Bpm(240)));
    CHECK(map.bar(500).swing == Swing::at(Bpm(240)));
    CHECK(map.swing() == Swing::at(Bpm(120)));  // of the tune as a whole
    CHECK(map.time_of(bar_of_four * 4) == Seconds(8));
    CHECK(map.time_of(bar_of_four * 5) == Seconds(9));
}

TEST_CASE("two bars are counted in, one where the tempo is slow, and as many as are asked for") {
    CHECK(until_stopped(80).count_in_bars() == 2);
    CHECK(until_stopped(79.9).count_in_bars() == 1);
    CHECK(until_stopped(120).count_in() == bar_of_four * 2);
    CHECK(until_stopped(120).lead() == Seconds(4));
    auto asked = roadmap::Asked::of({1, 4}, 1);
    asked.count_in_bars = 0;
    CHECK(RoadMap(four_bars(), asked).lead() == Seconds(0));
    auto form = four_bars();
    for (auto& bar : form.bars) bar.meter = time::Meter(Ticks(1440), {1, 1});
    asked.count_in_bars = 2;
    CHECK(RoadMap(form, asked).count_in() == Ticks(2 * 2880));
    CHECK(RoadMap(form, asked).lead() == Seconds(3));  // 2 bars of 3 quarters at 120
}

TEST_CASE("the count-in goes at the tempo with which the music begins") {
    const auto map = until_stopped(120).with({2, NewTempo{Bpm(60)}});
    CHECK(map.lead() == Seconds(4));
    CHECK(map.tempo_at(Ticks(-1)) == Bpm(120));
    CHECK(map.time_of(Ticks(-960)) == Seconds(-0.5));
}
