#include "support/bass_rules.hpp"
#include "support/booking.hpp"
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
    return {tests::Booking::of(passage, times, count_in_bars).map(form), {}};
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

tests::Booking blues_booking(int times) { return tests::Booking::of(blues().whole(), times); }

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
        auto booking = blues_booking(3);
        booking.asked.silence = roadmap::read_silence(text);
        const auto part = booking.play(form);
        const auto& silence = *booking.asked.silence;
        for (int bar = 0; bar < 36; ++bar) {
            const auto [strokes, notes] = sounds_in(part, bar);
            const bool out = bar % (silence.playing + silence.silent) >= silence.playing;
            CAPTURE(text, bar);
            CHECK((strokes == 0) == out);
            CHECK((notes == 0) == (out && !silence.drums_alone));
        }
        const auto silent = tests::silent_bars(booking.map(form));
        CHECK(silent.empty() == silence.drums_alone);
    }
}

TEST_CASE("whole choruses of silence, by the silence or by the road map") {
    const auto form = blues();
    auto counted = blues_booking(4);
    counted.asked.silence = roadmap::read_silence("1:1 times");
    auto written = blues_booking(4);
    written.asked.way.stretches[1].silent = written.asked.way.stretches[3].silent = true;
    for (const auto& booking : {counted, written}) {
        const auto part = booking.play(form);
        for (int bar = 0; bar < 48; ++bar) {
            const bool out = bar / 12 % 2 == 1;
            CHECK((sounds_in(part, bar) == std::pair(0, 0)) == out);
        }
        CHECK(tests::silent_bars(booking.map(form)).size() == 24);
    }
}

TEST_CASE("the line goes on after a silence as if it had been played") {
    const auto form = blues();
    auto booking = blues_booking(2);
    const auto whole = booking.play(form).notes;
    booking.asked.silence = roadmap::read_silence("2:2");
    for (const auto& note : booking.play(form).notes) {
        const auto same = std::find_if(whole.begin(), whole.end(),
                                       [&](const auto& other) { return other.at == note.at; });
        REQUIRE(same != whole.end());
        CHECK(same->note == note.note);
    }
}

TEST_CASE("a click stands in the drums' place on the beats asked for") {
    const auto form = blues();
    auto booking = tests::Booking::of(form.whole(), 1, 0);
    booking.asked.click = roadmap::read_click("2 4", time::Meter(4));
    auto part = booking.play(form);
    CHECK(part.strokes.size() == 24);
    CHECK(count_of(part, band::Drum::stick) == 24);
    CHECK(part.strokes[0].at == Ticks(960));
    booking.asked.click = roadmap::read_click("1/2", time::Meter(4));
    part = booking.play(form);
    REQUIRE(part.strokes.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(part.strokes[i].at == Ticks(2 * 3840) * static_cast<std::int64_t>(i));
    }
    // With the bass away too, the bars between are rests of the click and no silence.
    booking.asked.manner.bass = chart::Bass::off;
    CHECK(tests::silent_bars(booking.map(form)).empty());
}

TEST_CASE("fills lead into sections and times through, a crash stands on top, neither unasked") {
    auto form = tests::make_form(time::Meter(4), time::Bpm(132), {"F7", "F7", "Bb7", "C7"});
    for (int bar : {2, 3}) {
        form.bars[static_cast<std::size_t>(bar)].section = "B";
        form.bars[static_cast<std::size_t>(bar)].bar_in_section = bar - 1;
    }
    auto booking = tests::Booking::of(form.whole(), 2);
    const auto plain = booking.play(form);
    CHECK(count_of(plain, band::Drum::snare) == 0);
    CHECK(count_of(plain, band::Drum::crash) == 0);
    booking.players.fills = booking.players.crash = true;
    const auto part = booking.play(form);
    const auto filled = [](const band::Part& played) {
        std::set<int> bars;
        for (const auto& stroke : played.strokes) {
            const bool fills = stroke.drum == band::Drum::snare || stroke.drum == band::Drum::tom;
            if (fills) bars.insert(static_cast<int>(stroke.at / Ticks(3840)));
        }
        return bars;
    };
    CHECK(filled(part) == std::set<int>{1, 3, 5});  // not behind the very last bar
    booking.asked.way.held_ending = true;           // unless a last chord is to be led into
    CHECK(filled(booking.play(form)) == std::set<int>{1, 3, 5, 7});
    CHECK(count_of(part, band::Drum::crash) == 2);
}

TEST_CASE("a held ending is one bar more: the tonic rings, and nobody keeps time") {
    const auto form = blues();  // in C, by its chart
    auto booking = blues_booking(1);
    booking.asked.way.held_ending = true;
    const auto part = booking.play(form);
    const Ticks held = time::Meter(4).bar() * 12;
    CHECK(part.notes.back().at == held);
    CHECK(part.notes.back().note.pitch_class() == form.chart.key.tonic.pitch_class());
    CHECK(part.notes.back().length > time::Meter(4).bar());
    CHECK(count_between(part.strokes, held, held + Ticks(1)) == 2);
    CHECK(count_between(part.strokes, held + Ticks(1), held * 2) == 0);
}

TEST_CASE("a tune in minor ends on its tonic, a drummer who is off ends nothing, nor does a bass") {
    auto form = blues();
    for (auto& bar : form.bars) bar.key = {{harmony::Letter::A, 0}, true};
    auto booking = blues_booking(1);
    booking.asked.way = chart::Way::through(form, form.whole(), 1);
    const Ticks held = time::Meter(4).bar() * 12;
    auto part = booking.play(form);
    CHECK(part.notes.back().at == held);
    CHECK(part.notes.back().note.pitch_class() == 9);
    CHECK(part.strokes.back().drum == band::Drum::crash);
    booking.asked.manner = {{}, chart::Drums::brushes, {}};
    CHECK(booking.play(form).strokes.back().drum == band::Drum::brush_sweep);
    booking.asked.manner = {{}, chart::Drums::off, chart::Bass::off};
    part = booking.play(form);
    CHECK(part.notes.empty());
    CHECK(part.strokes.back().at < Ticks(0));  // the count-in
}

TEST_CASE("a road map's choruses are played each in its own manner") {
    const auto form = blues();
    auto booking = blues_booking(3);
    booking.asked.way.stretches[0].manner = {{}, chart::Drums::brushes, chart::Bass::two_feel};
    booking.asked.way.stretches[2].manner = {{}, chart::Drums::off, chart::Bass::roots};
    const auto part = booking.play(form);
    const auto bar = [&](int n) { return sounds_in(part, n); };
    CHECK(count_of(part, band::Drum::brush_sweep) == 24);
    CHECK(bar(0).second <= 3);
    CHECK(bar(12).second == 4);
    CHECK(bar(24).first == 0);
    // The player's own wish is closest of all.
    booking.asked.manner.bass = chart::Bass::off;
    CHECK(booking.play(form).notes.empty());
}

TEST_CASE("a melody is played on the heads of a road map, without one every time") {
    const auto form = blues();
    auto booking = blues_booking(3);
    booking.players.melody = {{time::Beats(0.52), time::Beats(1), harmony::MidiNote(65), 90},
                              {time::Beats(47), time::Beats(1), harmony::MidiNote(60), 90},
                              {time::Beats(48.5), time::Beats(1), harmony::MidiNote(61), 90}};
    const auto every = booking.play(form).melody;
    REQUIRE(every.size() == 6);  // what lies beyond the form is not played
    CHECK(every[2].at.count() == Approx(48.52));
    booking.asked.way.stretches[0].name = booking.asked.way.stretches[2].name = "head";
    booking.asked.way.stretches[1].name = "solo";
    const auto heads = booking.play(form).melody;
    REQUIRE(heads.size() == 4);
    CHECK(heads[2].at.count() == Approx(96.52));
    // A passage has the melody of its own bars.
    booking = tests::Booking::of({12, 12}, 1);
    booking.players.melody = {{time::Beats(0.5), time::Beats(1), harmony::MidiNote(65), 90},
                              {time::Beats(47), time::Beats(1), harmony::MidiNote(60), 90}};
    const auto last_bar = booking.play(form).melody;
    REQUIRE(last_bar.size() == 1);
    CHECK(last_bar[0].at.count() == Approx(3));
}

TEST_CASE("sections are played in the feels they ask for") {
    auto form = blues();
    for (std::size_t bar = 4; bar < 8; ++bar) form.bars[bar].manner.feel = chart::Feel::bossa;
    const auto part = blues_booking(1).play(form);
    for (const auto& stroke : part.strokes) {
        if (stroke.drum != band::Drum::cross_stick) continue;
        CHECK(stroke.at >= time::Meter(4).bar() * 4);
        CHECK(stroke.at < time::Meter(4).bar() * 8);
    }
    CHECK(count_of(part, band::Drum::cross_stick) == 10);
}
