// Who sounds in a bar is for the road map to say; here the players are heard to keep to it.

#include "support/bass_ear.hpp"
#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/forms.hpp"
#include "support/voicings.hpp"

#include <compline/band/part_writer.hpp>

#include <set>
#include <string>
#include <vector>

using namespace compline;
using roadmap::everybody;
using roadmap::LaysOut;
using time::Ticks;

namespace {

constexpr Ticks bar{3840};

chart::Form form_of(int bars) {
    return tests::make_form(time::Meter(4), time::Bpm(132),
                            std::vector<std::string>(static_cast<std::size_t>(bars), "F7"));
}

/// A note on every beat.
std::vector<band::MelodyNote> melody_over(int bars) {
    std::vector<band::MelodyNote> melody;
    for (int beat = 0; beat < 4 * bars; ++beat) {
        melody.push_back({time::Beats(beat), time::Beats(0.9), harmony::MidiNote(65), 90});
    }
    return melody;
}

template <typename Event>
std::set<int> bars_of(const std::vector<Event>& events) {
    std::set<int> bars;
    for (const auto& event : events) {
        const double beats = time::Beats(event.at).count();
        if (beats >= 0) bars.insert(static_cast<int>(beats / 4) + 1);
    }
    return bars;
}

template <typename Event>
std::vector<Event> within(const std::vector<Event>& events, const std::set<int>& wanted) {
    std::vector<Event> found;
    for (const auto& event : events) {
        if (wanted.contains(static_cast<int>(event.at / bar) + 1)) found.push_back(event);
    }
    return found;
}

}  // namespace

TEST_CASE("with drums and bass off a melody is played, and its bars are no silence") {
    const auto form = form_of(4);
    auto booking = tests::Booking::of(form.whole(), 1);
    booking.asked.manner.drums = chart::Drums::off;
    booking.asked.manner.bass = chart::Bass::off;
    CHECK(tests::silent_bars(booking.map(form)).size() == 4);
    booking.players.melody = melody_over(4);
    CHECK(booking.play(form).melody.size() == 16);
    CHECK(tests::silent_bars(booking.map(form)).empty());
}

TEST_CASE("in a silence of the drums alone the melody plays on, as bass and guitar do") {
    const auto form = form_of(4);
    auto booking = tests::Booking::of(form.whole(), 1, 0);
    booking.asked.silence = roadmap::read_silence("1:1 drums");
    booking.players.melody = melody_over(4);
    booking.players.voicings = tests::plan_by_hand(form);
    const auto part = booking.play(form);
    CHECK(bars_of(part.strokes) == std::set<int>{1, 3});
    CHECK(bars_of(part.notes) == std::set<int>{1, 2, 3, 4});
    CHECK(bars_of(part.melody) == std::set<int>{1, 2, 3, 4});
    CHECK(part.melody.size() == 16);
    booking.asked.silence = roadmap::read_silence("1:1");
    CHECK(bars_of(booking.play(form).melody) == std::set<int>{1, 3});
}

TEST_CASE("a bass that plays through a silence of the drums seasons its bars as ever") {
    const auto form = form_of(8);
    int ahead_of_a_silence = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        auto booking = tests::Booking::of(form.whole(), 2, 0);
        booking.players.seed = seed;
        const auto usual = booking.play(form).notes;
        for (const auto& note : tests::hear_bass(booking.map(form), booking.players)) {
            ahead_of_a_silence += note.short_one && note.bar % 2 == 1 ? 1 : 0;
        }
        booking.asked.silence = roadmap::read_silence("1:1 drums");
        CHECK(booking.play(form).notes == usual);
    }
    CHECK(ahead_of_a_silence > 20);
}

TEST_CASE("a band that leaves the player alone is back where it was told to be") {
    // Not even a kick of the whole band is struck there.
    const auto form =
        tests::make_form(time::Meter(4), time::Bpm(132), {"F7", "F7", "F7", "F7 / /! /"});
    auto booking = tests::Booking::of(form.whole(), 3, 0);
    booking.asked.manner.plain_bass = true;
    booking.players.melody = melody_over(4);
    booking.players.voicings = tests::plan_by_hand(form);
    const auto usual = booking.play(form);
    const auto map = booking.map(form, {{4, LaysOut{everybody}}, {10, LaysOut{everybody, false}}});
    const auto part = band::arrange(map, booking.players);
    const std::set<int> played{1, 2, 3, 10, 11, 12};
    CHECK(bars_of(part.strokes) == played);
    CHECK(bars_of(part.notes) == played);
    CHECK(bars_of(part.melody) == played);
    CHECK(part.strokes == within(usual.strokes, played));
    CHECK(part.notes.size() == within(usual.notes, played).size());
    for (const int number : bars_of(part.guitar)) CHECK(played.contains(number));
    CHECK(tests::silent_bars(map) == std::vector<std::int64_t>{4, 5, 6, 7, 8, 9});
}

TEST_CASE("a band that is stopped in mid-chorus plays the bar before and holds nothing") {
    const auto form = form_of(4);
    auto booking = tests::Booking::of(form.whole(), std::nullopt, 0);
    booking.asked.way.held_ending = true;
    const auto map = booking.map(form, {{7, roadmap::Stopped{}}});
    band::PartWriter writer(map, booking.players);
    REQUIRE(writer.next());
    const auto last = writer.next();
    REQUIRE(last);
    CHECK(bars_of(last->strokes) == std::set<int>{5, 6});
    CHECK(bars_of(last->notes) == std::set<int>{5, 6});
    CHECK_FALSE(writer.next());
}

TEST_CASE("a fill comes round in its turn where the drummer is off for a chorus") {
    const auto form = form_of(4);
    auto booking = tests::Booking::of(form.whole(), 3, 0);
    booking.players.fills = true;
    const auto filled = [&] {
        std::vector<band::Stroke> last;
        for (const auto& stroke : booking.play(form).strokes) {
            const bool in_last_fill = stroke.at >= bar * 11 - time::quarter_note * 2;
            if (in_last_fill) last.push_back(stroke);
        }
        return last;
    };
    booking.asked.way.held_ending = true;
    const auto usual = filled();
    booking.asked.way.stretches[1].manner.drums = chart::Drums::off;
    CHECK(filled() == usual);
}
