// A band whose tempo changes on the way: what is written stays, and every event is where sums of
// bar lengths, worked out here, have it.

#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/voicings.hpp"

#include <compline/band/part_writer.hpp>
#include <compline/band/place.hpp>
#include <compline/band/smf.hpp>

#include <algorithm>
#include <cmath>
#include <tuple>
#include <vector>

using namespace compline;
using band::Drum;
using roadmap::Decision;
using roadmap::NewTempo;
using time::Bpm;
using time::Frames;
using time::Ticks;

namespace {

constexpr int bars = 12;
constexpr int hz = 48000;

chart::Form blues() {
    return tests::make_form(time::Meter(4), Bpm(96),
                            {"F7", "Bb7", "F7", "Cm7 F7", "Bb7", "Bdim7", "F7", "Am7b5 D7b9", "Gm7",
                             "C7", "F7 D7", "Gm7 C7"});
}

/// Three choruses at 96, 100 and 104; over the last four bars it slows down to 90.
std::vector<Decision> getting_faster() {
    return {{13, NewTempo{Bpm(100)}}, {25, NewTempo{Bpm(104)}}, {33, NewTempo{Bpm(90)}}};
}

tests::Booking three_choruses() {
    auto booking = tests::Booking::of(blues().whole(), 3);
    booking.asked.swing = roadmap::AskedSwing{2};
    booking.players.voicings = tests::plan_by_hand(blues());
    booking.players.fills = true;
    return booking;
}

/// When a beat or an off-beat, swung 2:1, is due: bars before it, each as long as its tempo makes
/// it, and beats of its own.
double due(Ticks at) {
    const auto tempo = [](std::int64_t bar) {
        if (bar < 12) return 96.0;
        if (bar < 24) return 100.0;
        return bar < 32 ? 104.0 : 90.0;
    };
    const auto bar = static_cast<std::int64_t>(std::floor(static_cast<double>(at.count()) / 3840));
    double seconds = 0;
    for (std::int64_t before = 0; before < bar; ++before) seconds += 4 * 60 / tempo(before);
    for (std::int64_t after = bar; after < 0; ++after) seconds -= 4 * 60 / tempo(after);
    const std::int64_t in_bar = at.count() - bar * 3840;
    const double beats =
        std::floor(static_cast<double>(in_bar) / 960) + (in_bar % 960 == 480 ? 2.0 / 3 : 0.0);
    return seconds + beats * 60 / tempo(bar);
}

/// When all that the part has begins, in order.
std::vector<double> all_due(const band::Part& part, double bass_behind = 0) {
    std::vector<double> all;
    for (const auto& stroke : part.strokes) all.push_back(due(stroke.at));
    for (const auto& note : part.notes) all.push_back(due(note.at) + bass_behind);
    for (const auto& note : part.guitar) all.push_back(due(note.at) + note.rolled.count());
    std::sort(all.begin(), all.end());
    return all;
}

/// Cues in an order of their own, whatever is placed first.
std::vector<std::tuple<Frames, std::size_t, float, Frames>> in_order(
    const std::vector<sound::Cue>& cues) {
    std::vector<std::tuple<Frames, std::size_t, float, Frames>> all;
    for (const auto& cue : cues) {
        all.emplace_back(cue.at, static_cast<std::size_t>(cue.sound.index()), cue.gain, cue.stop);
    }
    std::sort(all.begin(), all.end());
    return all;
}

std::vector<sound::Cue> place(const band::Part& part, const roadmap::RoadMap& map) {
    return band::place(part, map, time::SampleRate(hz), Frames(0));
}

/// A time through at a time.
std::vector<sound::Cue> placed_one_by_one(const roadmap::RoadMap& map,
                                          const band::Players& players) {
    std::vector<sound::Cue> cues;
    band::PartWriter writer(map, players);
    while (const auto part = writer.next()) {
        const auto more = place(*part, map);
        cues.insert(cues.end(), more.begin(), more.end());
    }
    return cues;
}

}  // namespace

TEST_CASE(
    "where the tempo changes every stroke is on the frame that the bars before it add up to") {
    const auto booking = three_choruses();
    const auto map = booking.map(blues(), getting_faster());
    const auto part = band::arrange(map, booking.players);
    const auto cues = place(part, map);
    const auto expected = all_due(part);
    REQUIRE(cues.size() == expected.size());
    REQUIRE(cues.size() > 36 * 12);
    for (std::size_t i = 0; i < cues.size(); ++i) {
        CHECK(std::fabs(static_cast<double>(cues[i].at.count()) - expected[i] * hz) <= 1);
    }
}

TEST_CASE("a MIDI file whose tempo changes has every note at the same seconds") {
    const auto booking = three_choruses();
    const auto map = booking.map(blues(), getting_faster());
    const auto part = band::arrange(map, booking.players);
    band::Stage stage;
    band::read_placement("bass=+20", stage);
    const auto recording = midi::flatten(band::to_smf(map, part, stage));
    const double lead = 2 * 4 * 60 / 96.0;
    std::vector<double> heard;
    for (const auto& timed : recording.messages) {
        if (timed.message.starts_note()) heard.push_back(timed.at.count() - lead);
    }
    std::sort(heard.begin(), heard.end());
    const auto expected = all_due(part, 0.020);
    REQUIRE(heard.size() == expected.size());
    for (std::size_t i = 0; i < heard.size(); ++i) {
        CHECK(std::fabs(heard[i] - expected[i]) < 1e-4);
    }
    CHECK(recording.length.count() - lead == Approx(due(Ticks(3840) * 36)).margin(1e-4));
}

TEST_CASE("times through placed one at a time are what is placed at once, whatever the tempo") {
    const auto booking = three_choruses();
    const auto map = booking.map(blues(), getting_faster());
    CHECK(in_order(placed_one_by_one(map, booking.players)) ==
          in_order(place(band::arrange(map, booking.players), map)));
}

TEST_CASE("a guitar that has nothing to comp in a time through leaves the others as loud") {
    const auto form = tests::make_form(time::Meter(4), Bpm(132), {"F7", "Bb7", "N.C.", "N.C."});
    auto booking = tests::Booking::of(form.whole(), 2);
    booking.asked.way.stretches[0].passage = {1, 2};
    booking.asked.way.stretches[1].passage = {3, 4};
    booking.players.voicings = tests::plan_by_hand(form);
    const auto map = booking.map(form);
    CHECK(in_order(placed_one_by_one(map, booking.players)) ==
          in_order(place(band::arrange(map, booking.players), map)));
}

TEST_CASE("another tempo moves strokes and notes and rewrites none of them") {
    const auto booking = three_choruses();
    const auto moved = band::arrange(booking.map(blues(), getting_faster()), booking.players);
    const auto steady = booking.play(blues());
    CHECK(moved.strokes == steady.strokes);
    CHECK(moved.notes == steady.notes);
    CHECK(moved.guitar == steady.guitar);
}

TEST_CASE("what a tempo does to the manner is settled where a time through begins") {
    auto booking = tests::Booking::of(blues().whole(), 2);
    const auto map = booking.map(blues(), {{7, NewTempo{Bpm(60)}}});
    std::vector<Ticks> swept;
    for (const auto& stroke : band::arrange(map, {}).strokes) {
        if (stroke.drum == Drum::brush_sweep) swept.push_back(stroke.at);
    }
    REQUIRE(swept.size() == 2 * bars);
    CHECK(swept.front() == Ticks(3840) * bars);
}

TEST_CASE("each moment is as loud as its own tempo has it") {
    band::Part part;
    for (int bar = 0; bar < 4; ++bar) {
        part.strokes.push_back({Ticks(3840) * bar, Drum::ride, 80});
        part.melody.push_back({time::Beats(4 * bar), time::Beats(1), harmony::MidiNote(60), 80});
    }
    part.kicks = {Ticks(3840), Ticks(3840) * 3};
    auto booking = tests::Booking::of({1, 4}, 1);
    const auto at = [&](double bpm) {
        booking.asked.tempo = Bpm(bpm);
        return place(part, booking.map(blues()));
    };
    const auto slow = at(100);
    const auto fast = at(200);
    booking.asked.tempo = Bpm(100);
    const auto both = place(part, booking.map(blues(), {{3, NewTempo{Bpm(200)}}}));
    REQUIRE(both.size() == 8);
    for (std::size_t i = 0; i < 8; ++i) {
        CHECK(slow[i].gain != fast[i].gain);
        CHECK(both[i].gain == (i < 4 ? slow : fast)[i].gain);
    }
}
