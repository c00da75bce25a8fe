#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/roadmap/road_map.hpp>

#include <string>

using namespace compline;
using time::Bpm;
using time::Seconds;
using time::Ticks;

namespace {

chart::Form form_of(const std::string& sections, const std::string& above = "") {
    return chart::unroll(chart::read_chart(above + tests::chart_text(sections), "t.yaml"));
}

roadmap::RoadMap map_of(const chart::Form& form, const std::string& road_map) {
    roadmap::Asked asked;
    asked.way = chart::read_road_map(form, road_map);
    return {form, asked};
}

const std::string fast_bridge = "  A: C | D\n  B: {tempo: 180, bars: E | F}\n";

}  // namespace

TEST_CASE("a section has its own tempo, and keeps its proportion where another is asked for") {
    const auto form = form_of(fast_bridge);
    const auto map = map_of(form, "head x2");
    CHECK(map.bar(1).tempo == Bpm(120));
    CHECK(map.bar(3).tempo == Bpm(180));
    CHECK(map.bar(5).tempo == Bpm(120));
    // Two bars of four at 120, two at 180.
    CHECK(map.tempi().time_of(map.start(2)).count() == Approx(8 * 0.5 + 8 / 3.0));
    auto asked = map.asked();
    asked.tempo = Bpm(100);
    const roadmap::RoadMap slower(form, asked);
    CHECK(slower.bar(3).tempo == Bpm(150));
    CHECK(slower.tempo() == Bpm(100));
    const auto faster = slower.with({5, roadmap::NewTempo{Bpm(110)}});
    CHECK(faster.bar(3).tempo == Bpm(150));
    CHECK(faster.bar(7).tempo == Bpm(165));
}

TEST_CASE("tempi of sections come again as long as it goes on, and time is what it was") {
    const auto form = form_of(fast_bridge);
    const roadmap::RoadMap map(form, roadmap::Asked::of(form.whole(), std::nullopt));
    const double once = 8 * 0.5 + 8 / 3.0;
    for (const int time_through : {1, 2, 3, 50, 4000}) {
        const auto start = map.start(time_through);
        CHECK(map.tempi().time_of(start).count() == Approx((time_through - 1) * once));
        const auto bar = map.bar(map.first_bar(time_through) + 2);
        CHECK(bar.tempo == Bpm(180));
        const auto moment = map.tempi().time_of(bar.start) + Seconds(0.1);
        CHECK(map.place_at(moment).number == bar.number);
        CHECK(map.tempi().beat_at(moment).count() ==
              Approx(time::Beats(bar.start).count() + 0.3).margin(1e-6));
    }
}

TEST_CASE("a rit slows down beat by beat to three fifths, and a tempo is the first tempo again") {
    const auto form = form_of("  A: C | D | E | F\n");
    const auto map = map_of(form, "head; rit 2; head: a tempo; rit 1; head");
    double before = 121;
    for (int beat = 8; beat < 16; ++beat) {
        const double tempo = map.tempo_at(time::quarter_note * beat).count();
        CHECK(tempo < before);
        before = tempo;
    }
    CHECK(map.bar(2).tempo == Bpm(120));
    CHECK(before > 72);
    CHECK(before < 90);
    CHECK(map.bar(5).tempo == Bpm(120));
    // Without a word it stays as slow as it has become.
    CHECK(map.bar(9).tempo.count() == Approx(72));
}

TEST_CASE("half-time and double-time leave bars and chords where they are and move the off-beats") {
    const auto form = form_of(
        "  A: {feel: half-time, bars: C D | E}\n"
        "  B: {feel: double-time, bars: C D | E}\n");
    const auto map = map_of(form, "head");
    CHECK(map.bar(2).start == Ticks(3840));
    CHECK(map.bar(1).meter().beats() == 2);
    CHECK(map.bar(3).meter().beats() == 8);
    // The off-beat of a half note at 120 swings as at 60; that of an eighth as at 240.
    const double half = map.time_of(time::quarter_note).count();
    CHECK(half == Approx(1.0 * time::Swing(2.0).off_beat()));  // slow: in triplets
    const double eighth = map.time_of(Ticks(7680 + 240)).count() - 4.0;
    CHECK(eighth == Approx(0.25 * time::Swing::at(Bpm(240)).off_beat()));
}

TEST_CASE("in six eight nothing swings, and its bars last three quarters") {
    const auto form = form_of("  A: {meter: 6/8, bars: C D | E}\n  B: F\n");
    const auto map = map_of(form, "head");
    CHECK(map.time_of(time::eighth_note).count() == Approx(0.25));
    CHECK(map.bar(3).start == Ticks(2 * 2880));
    CHECK(map.changes()[1].beat == time::BeatOfBar(4));
    CHECK(map.changes()[1].at == Ticks(1440));
}

TEST_CASE("a fermata makes its bar longer and its chord with it") {
    const auto form = form_of("  A: C~4 | D\n");
    const auto map = map_of(form, "head");
    CHECK(map.bar(2).start == Ticks(3840 * 2));
    CHECK(map.changes()[0].length == Ticks(3840 * 2));
    CHECK(map.place_at(Ticks(5000)).number == 1);
}

TEST_CASE("nobody judges what is rubato, and nobody plays in it") {
    const auto form = form_of("  A: C | D\n  B: {tempo: rubato, bars: E | F}\n");
    const auto map = map_of(form, "head x2");
    CHECK(map.bar(3).waits);
    CHECK(map.bar(3).in_form() == 3);
    CHECK(!map.bar(3).is_silent());
    std::string changes;
    for (const auto& change : map.changes()) changes += change.to.symbol();
    CHECK(changes == "CDCD");
}
