// The band leaves and comes back: what the player's time did meanwhile.

#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/band/band.hpp>

#include <fmt/format.h>

using namespace compline;
using tests::Comper;

namespace {

const std::string eight_bars = "Dm7 | % | % | % | % | % | % | %";
const std::string sixteen_bars = eight_bars + " | " + eight_bars;

/// Four to the bar, in time while the band plays; in its silences each beat is `drift` ms a bar
/// further off, counted from the silence's first beat.
void comp(Comper& comper, int bars, int playing, int silent, double drift) {
    for (int bar = 0; bar < bars; ++bar) {
        for (int beat = 0; beat < 4; ++beat) {
            const int in_turn = bar % (playing + silent);
            double off = 0;
            if (in_turn >= playing) off = drift * (in_turn - playing + beat / 4.0);
            // The beat on which the band is back is struck by the player's own clock still.
            if (bar > 0 && in_turn == 0 && beat == 0) off = drift * silent;
            comper.strum(bar + 1, beat + 1, "x5x56x", off, 0.6);
        }
    }
}

}  // namespace

TEST_CASE("a drift over silent bars is measured up to the strum on which the band is back") {
    for (const double drift : {-9.0, 6.0, 14.0}) {
        CAPTURE(drift);
        Comper comper(sixteen_bars, 132);
        comp(comper, 16, 4, 4, drift);
        comper.silent(5, 8).silent(13, 16);
        const auto time = comper.judged().time;
        REQUIRE(time.drift_ms_per_bar);
        CHECK(*time.drift_ms_per_bar == Approx(drift).margin(0.1));
        REQUIRE(time.silences.size() == 2);
        CHECK(time.silences[0].first_bar == 5);
        CHECK(time.silences[0].bars == 4);
        CHECK(time.silences[0].strums == 17);
        REQUIRE(time.silences[0].came_back_ms);
        CHECK(*time.silences[0].came_back_ms == Approx(4 * drift).margin(0.1));
        CHECK_FALSE(time.silences[1].came_back_ms);  // nothing was played after it
    }
}

TEST_CASE("what the band puts right between two silences is no drift") {
    // Each silence begins in time: over all bars together the strums have no slope at all.
    Comper comper(sixteen_bars, 120);
    comp(comper, 16, 2, 2, 10);
    comper.silent(3, 4).silent(7, 8).silent(11, 12).silent(15, 16);
    CHECK(*comper.judged().time.drift_ms_per_bar == Approx(10).margin(0.1));
}

TEST_CASE("a player who wanders further than half an off-beat is still followed") {
    Comper comper(sixteen_bars, 132);
    comper.swing(2.58);
    comp(comper, 16, 4, 8, 30);  // 240 ms in the end; the short note is 127
    comper.silent(5, 12);
    const auto time = comper.judged().time;
    CHECK(*time.drift_ms_per_bar == Approx(30).margin(0.1));
    CHECK(*time.silences[0].came_back_ms == Approx(240).margin(0.5));
}

TEST_CASE("who wanders further than a beat's half is followed through chords that change, too") {
    const char* grips[] = {"x5x56x", "4x45xx", "2x22xx", "8x89xx"};
    Comper comper("Dm7 | Ab7 | F#m7 | C7 | Dm7 | Ab7 | F#m7 | C7 | Dm7 | Ab7 | F#m7 | C7", 132);
    for (int bar = 0; bar < 12; ++bar) {
        const double off = bar < 4 ? 0 : 40.0 * (bar - 4);
        comper.strum(bar + 1, 1, grips[bar % 4], off, 0.9)
            .strum(bar + 1, 3, grips[bar % 4], bar < 4 ? 0 : off + 20, 0.9);
    }
    comper.silent(5, 12);
    CHECK(*comper.judged().time.drift_ms_per_bar == Approx(40).margin(0.1));
}

TEST_CASE("a player who lays out in the silence shows where the clock stood on coming back") {
    Comper comper(eight_bars, 132);
    for (int bar = 1; bar <= 8; ++bar) {
        if (bar >= 3 && bar <= 6) continue;
        for (int beat = 1; beat <= 4; ++beat) {
            comper.strum(bar, beat, "x5x56x", bar == 7 && beat == 1 ? -35 : 5, 0.6);
        }
    }
    const auto time = comper.silent(3, 6).judged().time;
    CHECK_FALSE(time.drift_ms_per_bar);
    REQUIRE(time.silences.size() == 1);
    CHECK(time.silences[0].strums == 1);
    CHECK(*time.silences[0].came_back_ms == Approx(-40).margin(0.1));
}

TEST_CASE("the bars that the band leaves out are those the judge takes for silent") {
    const auto form = tests::form_of(sixteen_bars);
    auto asked = roadmap::Asked::of(form.whole(), 2);
    asked.silence = roadmap::read_silence("4:4");
    asked.tempo = time::Bpm(132);
    const roadmap::RoadMap map(form, asked);
    const auto time = assess::assess(map, {}, {}).time;
    REQUIRE(time.silences.size() == 4);
    const auto part = band::arrange(map, {});
    for (std::size_t n = 0; n < 4; ++n) {
        const auto& silence = time.silences[n];
        CHECK(silence.first_bar == static_cast<std::int64_t>(8 * n + 5));
        CHECK(silence.bars == 4);
        const auto from = map.bar(silence.first_bar).start;
        const auto to = map.bar(silence.first_bar + 3).end();
        for (const auto& stroke : part.strokes) {
            CHECK_FALSE((stroke.at >= from && stroke.at < to));
        }
        for (const auto& note : part.notes) {
            const bool sounds = note.at < to && note.at + note.length > from;
            CHECK_FALSE(sounds);
        }
    }
}

TEST_CASE("kicks are counted, with how the strums on them fell") {
    auto form = tests::form_of("Dm7 | G7 | Cmaj7 | %");
    form.bars[1].kicks = {time::Ticks(0), time::Ticks(2 * 960)};
    form.bars[2].kicks = {time::eighth_note};  // on 1&
    Comper comper(form, 120);
    comper.swing(2);
    comper.strum(1, 1, "x5x56x");
    comper.strum(2, 1, "3x34xx", 12).strum(2, 3, "3x34xx", 8);
    comper.strum(3, 1, "x3x45x");  // a third of a second away from 1&: not caught
    comper.strum(4, 1, "x3x45x");
    const auto kicks = comper.judged().time.kicks;
    CHECK(kicks.written == 3);
    CHECK(kicks.caught.count == 2);
    CHECK(*kicks.caught.mean_ms == Approx(10).margin(0.1));
}

TEST_CASE("a kick before a change asks for the push, also where pushes are off") {
    auto form = tests::form_of("Dm7 | G7 | Cmaj7 | %");
    const auto pushed = [&] {
        Comper comper(form, 120);
        comper.swing(2);
        comper.strum(1, 1, "x5x56x").strum(1, 4.5, "3x34xx", 0, 4).strum(3, 1, "x3x45x");
        assess::Settings settings;
        settings.pushes = false;
        return comper.change(2, settings).verdict;
    };
    CHECK(pushed() == assess::Verdict::early);
    form.bars[0].kicks = {time::Ticks(3 * 960 + 480)};
    CHECK(pushed() == assess::Verdict::pushed);
}

TEST_CASE("in a section with a feel of its own the off-beats are where that feel has them") {
    auto form = tests::form_of({{"A", "Dm7 | G7"}, {"B", "Cmaj7 | Am7"}}, "A, B");
    for (auto& bar : form.bars) {
        if (bar.section == "B") bar.manner.feel = chart::Feel::bossa;
    }
    auto asked = roadmap::Asked::of(form.whole(), 2);
    asked.tempo = time::Bpm(120);
    const roadmap::RoadMap map(form, asked);
    const auto off_beat = [&](int bar) {
        const auto line = form.chart.meter.bar() * bar;
        return (map.time_of(line + time::eighth_note) - map.time_of(line)).milliseconds();
    };
    const double swung = 500 * form.chart.swing_at(time::Bpm(120)).off_beat();
    for (const int bar : {0, 1, 4, 5}) CHECK(off_beat(bar) == Approx(swung));
    for (const int bar : {2, 3, 6, 7}) CHECK(off_beat(bar) == Approx(250));
    // What was played there is read by the same feel.
    for (const int bar : {0, 2}) {
        const auto at = form.chart.meter.bar() * bar + time::eighth_note;
        CHECK(map.written_at(map.time_of(at)).count() == Approx(bar * 4 + 0.5));
    }
}
