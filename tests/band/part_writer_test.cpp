#include "support/bass_rules.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/band/part_writer.hpp>

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

using namespace compline;
using band::PartWriter;

namespace {

chart::Form blues() {
    return tests::make_form(time::Meter(4), time::Bpm(132),
                            {"F7", "Bb7", "F7", "Cm7 F7", "Bb7", "Bdim7", "F7", "Am7b5 D7b9", "Gm7",
                             "C7", "F7 D7", "Gm7 C7"});
}

PartWriter writer_of(const chart::Form& form, chart::Passage passage, std::optional<int> times,
                     int count_in_bars = 2) {
    return {form, band::Setup::of(passage, times, count_in_bars), form.chart.tempo};
}

std::vector<band::BassNote> line_of(PartWriter& writer, int times) {
    std::vector<band::BassNote> line;
    for (int time = 0; time < times; ++time) {
        const auto part = writer.next();
        REQUIRE(part);
        line.insert(line.end(), part->notes.begin(), part->notes.end());
    }
    return line;
}

}  // namespace

TEST_CASE("a band without an end keeps the rules of a walking line from chorus to chorus") {
    const auto form = blues();
    for (const chart::Passage passage :
         {form.whole(), chart::Passage{4, 7}, chart::Passage{8, 8}}) {
        CAPTURE(passage.from, passage.to);
        const int times = 40;
        auto endless = writer_of(form, passage, std::nullopt);
        auto ending = writer_of(form, passage, times);
        const auto line = line_of(endless, times - 2);
        const auto whole = line_of(ending, times);
        REQUIRE(line.size() < whole.size());
        CHECK(std::equal(line.begin(), line.end(), whole.begin()));
        for (const auto& fault : tests::faults_of(whole, form, passage, times)) FAIL_CHECK(fault);
    }
}

TEST_CASE("a band asked for some choruses plays like one without an end, until it sees the end") {
    const auto form = blues();
    auto endless = writer_of(form, form.whole(), std::nullopt);
    auto five = writer_of(form, form.whole(), 5);
    for (int time = 0; time < 5; ++time) {
        const auto one = endless.next();
        const auto other = five.next();
        REQUIRE(one);
        REQUIRE(other);
        CHECK(one->strokes == other->strokes);
        if (time < 3) CHECK(one->notes == other->notes);
    }
    CHECK_FALSE(five.next());
    CHECK(endless.next());
}

TEST_CASE("the count-in comes before the first time through alone") {
    const auto form = blues();
    for (const int bars : {0, 1, 2}) {
        auto writer = writer_of(form, {5, 8}, 3, bars);
        const auto first = writer.next();
        REQUIRE(first);
        CHECK((first->strokes.front().at < time::Ticks(0)) == (bars > 0));
        const auto second = writer.next();
        REQUIRE(second);
        CHECK(second->strokes.front().at == form.chart.meter.bar() * 4);
        CHECK(second->notes.front().at == form.chart.meter.bar() * 4);
    }
}

TEST_CASE("a passage of nothing but N.C. has drums and no bass") {
    const auto form = tests::make_form(time::Meter(3), time::Bpm(132), {"N.C.", "F7"});
    auto writer = writer_of(form, {1, 1}, std::nullopt, 0);
    for (int time = 0; time < 3; ++time) {
        const auto part = writer.next();
        REQUIRE(part);
        CHECK(part->notes.empty());
        CHECK_FALSE(part->strokes.empty());
    }
}

namespace {

using time::Ticks;

band::Setup blues_setup(int times) { return band::Setup::of(blues().whole(), times); }

template <typename Event>
int count_between(const std::vector<Event>& events, Ticks from, Ticks to) {
    return static_cast<int>(std::count_if(
        events.begin(), events.end(), [&](const Event& e) { return e.at >= from && e.at < to; }));
}

/// Strokes and notes of a bar played, from 0.
std::pair<int, int> sounds_in(const band::Part& part, int bar) {
    const Ticks line = time::Meter(4).bar() * bar;
    const Ticks next = line + time::Meter(4).bar();
    return {count_between(part.strokes, line, next), count_between(part.notes, line, next)};
}

int count_of(const band::Part& part, band::Drum drum) {
    return static_cast<int>(std::count_if(part.strokes.begin(), part.strokes.end(),
                                          [&](const auto& s) { return s.drum == drum; }));
}

}  // namespace

TEST_CASE("a silence takes drums and bass away, or the drums alone, and counts bars on") {
    const auto form = blues();
    for (const char* text : {"4:4", "4:4 drums", "3:1"}) {
        auto setup = blues_setup(3);
        setup.silence = band::read_silence(text);
        const auto part = band::arrange(form, setup, time::Bpm(132));
        const auto& silence = *setup.silence;
        for (int bar = 0; bar < 36; ++bar) {
            const auto [strokes, notes] = sounds_in(part, bar);
            const bool out = bar % (silence.playing + silence.silent) >= silence.playing;
            CAPTURE(text, bar);
            CHECK((strokes == 0) == out);
            CHECK((notes == 0) == (out && !silence.drums_alone));
        }
        const auto silent = band::silent_bars(form, setup, time::Bpm(132), 36);
        CHECK(silent.empty() == silence.drums_alone);
    }
}

TEST_CASE("whole choruses of silence, by the silence or by the road map") {
    const auto form = blues();
    auto counted = blues_setup(4);
    counted.silence = band::read_silence("1:1 times");
    auto written = blues_setup(4);
    written.route.stretches[1].silent = written.route.stretches[3].silent = true;
    for (const auto& setup : {counted, written}) {
        const auto part = band::arrange(form, setup, time::Bpm(132));
        for (int bar = 0; bar < 48; ++bar) {
            const bool out = bar / 12 % 2 == 1;
            CHECK((sounds_in(part, bar) == std::pair(0, 0)) == out);
        }
        CHECK(band::silent_bars(form, setup, time::Bpm(132), 48).size() == 24);
    }
}

TEST_CASE("the line goes on after a silence as if it had been played") {
    const auto form = blues();
    auto setup = blues_setup(2);
    const auto whole = band::arrange(form, setup, time::Bpm(132)).notes;
    setup.silence = band::read_silence("2:2");
    for (const auto& note : band::arrange(form, setup, time::Bpm(132)).notes) {
        const auto same = std::find_if(whole.begin(), whole.end(),
                                       [&](const auto& other) { return other.at == note.at; });
        REQUIRE(same != whole.end());
        CHECK(same->note == note.note);
    }
}

TEST_CASE("a click stands in the drums' place on the beats asked for") {
    const auto form = blues();
    auto setup = band::Setup::of(form.whole(), 1, 0);
    setup.click = band::read_click("2 4", time::Meter(4));
    auto part = band::arrange(form, setup, time::Bpm(132));
    CHECK(part.strokes.size() == 24);
    CHECK(count_of(part, band::Drum::stick) == 24);
    CHECK(part.strokes[0].at == Ticks(960));
    setup.click = band::read_click("1/2", time::Meter(4));
    part = band::arrange(form, setup, time::Bpm(132));
    REQUIRE(part.strokes.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(part.strokes[i].at == Ticks(2 * 3840) * static_cast<std::int64_t>(i));
    }
    // With the bass away too, the player is alone in the bars between.
    CHECK(band::silent_bars(form, setup, time::Bpm(132), 12).empty());
    setup.manner.bass = chart::Bass::off;
    CHECK(band::silent_bars(form, setup, time::Bpm(132), 12) ==
          std::vector<int>{1, 3, 5, 7, 9, 11});
}

TEST_CASE("fills lead into sections and times through, a crash stands on top, neither unasked") {
    auto form = tests::make_form(time::Meter(4), time::Bpm(132), {"F7", "F7", "Bb7", "C7"});
    for (int bar : {2, 3}) {
        form.bars[static_cast<std::size_t>(bar)].section = "B";
        form.bars[static_cast<std::size_t>(bar)].bar_in_section = bar - 1;
    }
    auto setup = band::Setup::of(form.whole(), 2);
    const auto plain = band::arrange(form, setup, time::Bpm(132));
    CHECK(count_of(plain, band::Drum::snare) == 0);
    CHECK(count_of(plain, band::Drum::crash) == 0);
    setup.fills = setup.crash = true;
    const auto part = band::arrange(form, setup, time::Bpm(132));
    const auto filled = [](const band::Part& played) {
        std::set<int> bars;
        for (const auto& stroke : played.strokes) {
            const bool fills = stroke.drum == band::Drum::snare || stroke.drum == band::Drum::tom;
            if (fills) bars.insert(static_cast<int>(stroke.at / Ticks(3840)));
        }
        return bars;
    };
    CHECK(filled(part) == std::set<int>{1, 3, 5});  // not behind the very last bar
    setup.route.held_ending = true;                 // unless a last chord is to be led into
    CHECK(filled(band::arrange(form, setup, time::Bpm(132))) == std::set<int>{1, 3, 5, 7});
    CHECK(count_of(part, band::Drum::crash) == 2);
}

TEST_CASE("a held ending is one bar more: the tonic rings, and nobody keeps time") {
    const auto form = blues();  // in C, by its chart
    auto setup = blues_setup(1);
    setup.route.held_ending = true;
    const auto part = band::arrange(form, setup, time::Bpm(132));
    const Ticks held = time::Meter(4).bar() * 12;
    CHECK(part.notes.back().at == held);
    CHECK(part.notes.back().note.pitch_class() == form.chart.key.tonic.pitch_class());
    CHECK(part.notes.back().length > time::Meter(4).bar());
    CHECK(count_between(part.strokes, held, held + Ticks(1)) == 2);
    CHECK(count_between(part.strokes, held + Ticks(1), held * 2) == 0);
}

TEST_CASE("a tune in minor ends on its tonic, a drummer who is off ends nothing, nor does a bass") {
    auto form = blues();
    form.chart.key = {{harmony::Letter::A, 0}, true};
    auto setup = blues_setup(1);
    setup.route = chart::Route::through(form, form.whole(), 1);
    const Ticks held = time::Meter(4).bar() * 12;
    auto part = band::arrange(form, setup, time::Bpm(132));
    CHECK(part.notes.back().at == held);
    CHECK(part.notes.back().note.pitch_class() == 9);
    CHECK(part.strokes.back().drum == band::Drum::crash);
    setup.manner = {{}, chart::Drums::brushes, {}};
    CHECK(band::arrange(form, setup, time::Bpm(132)).strokes.back().drum ==
          band::Drum::brush_sweep);
    setup.manner = {{}, chart::Drums::off, chart::Bass::off};
    part = band::arrange(form, setup, time::Bpm(132));
    CHECK(part.notes.empty());
    CHECK(part.strokes.back().at < Ticks(0));  // the count-in
}

TEST_CASE("a road map's choruses are played each in its own manner") {
    const auto form = blues();
    auto setup = blues_setup(3);
    setup.route.stretches[0].manner = {{}, chart::Drums::brushes, chart::Bass::two_feel};
    setup.route.stretches[2].manner = {{}, chart::Drums::off, chart::Bass::roots};
    const auto part = band::arrange(form, setup, time::Bpm(132));
    const auto bar = [&](int n) { return sounds_in(part, n); };
    CHECK(count_of(part, band::Drum::brush_sweep) == 24);
    CHECK(bar(0).second <= 3);
    CHECK(bar(12).second == 4);
    CHECK(bar(24).first == 0);
    // The player's own wish is closest of all.
    setup.manner.bass = chart::Bass::off;
    CHECK(band::arrange(form, setup, time::Bpm(132)).notes.empty());
}

TEST_CASE("a melody is played on the heads of a road map, without one every time") {
    const auto form = blues();
    auto setup = blues_setup(3);
    setup.melody = {{time::Beats(0.52), time::Beats(1), harmony::MidiNote(65), 90},
                    {time::Beats(47), time::Beats(1), harmony::MidiNote(60), 90},
                    {time::Beats(48.5), time::Beats(1), harmony::MidiNote(61), 90}};
    const auto every = band::arrange(form, setup, time::Bpm(132)).melody;
    REQUIRE(every.size() == 6);  // what lies beyond the form is not played
    CHECK(every[2].at.count() == Approx(48.52));
    setup.route.stretches[0].name = setup.route.stretches[2].name = "head";
    setup.route.stretches[1].name = "solo";
    const auto heads = band::arrange(form, setup, time::Bpm(132)).melody;
    REQUIRE(heads.size() == 4);
    CHECK(heads[2].at.count() == Approx(96.52));
    // A passage has the melody of its own bars.
    setup = band::Setup::of({12, 12}, 1);
    setup.melody = {{time::Beats(0.5), time::Beats(1), harmony::MidiNote(65), 90},
                    {time::Beats(47), time::Beats(1), harmony::MidiNote(60), 90}};
    const auto last_bar = band::arrange(form, setup, time::Bpm(132)).melody;
    REQUIRE(last_bar.size() == 1);
    CHECK(last_bar[0].at.count() == Approx(3));
}

TEST_CASE("sections are played in the feels they ask for") {
    auto form = blues();
    for (std::size_t bar = 4; bar < 8; ++bar) form.bars[bar].manner.feel = chart::Feel::bossa;
    const auto part = band::arrange(form, blues_setup(1), time::Bpm(132));
    for (const auto& stroke : part.strokes) {
        if (stroke.drum != band::Drum::cross_stick) continue;
        CHECK(stroke.at >= time::Meter(4).bar() * 4);
        CHECK(stroke.at < time::Meter(4).bar() * 8);
    }
    CHECK(count_of(part, band::Drum::cross_stick) == 10);
}
