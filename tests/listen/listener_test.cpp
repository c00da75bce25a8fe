#include "support/catch.hpp"

#include <compline/listen/listener.hpp>

#include <vector>

using namespace compline;
using listen::Heard;
using listen::Settings;
using midi::TimedMessage;
using time::Seconds;

namespace {

TimedMessage at(double ms, const midi::Message& message) {
    return {time::from_milliseconds(ms), message};
}

Heard hear(const std::vector<TimedMessage>& messages, const Settings& settings = {}) {
    return listen::hear(messages, settings, Seconds(10));
}

Settings per_string() {
    Settings settings;
    settings.strings = listen::Strings{};
    return settings;
}

}  // namespace

TEST_CASE("a channel per string gives string and fret, in either order") {
    const auto high_first = hear({at(0, midi::note_on(5, 50, 80)), at(1, midi::note_on(3, 60, 80)),
                                  at(2, midi::note_on(2, 65, 80))});
    REQUIRE(high_first.strings.has_value());
    CHECK(!high_first.strings->low_string_first);
    CHECK(high_first.notes[0].string == 5);
    CHECK(high_first.notes[0].fret == 5);
    CHECK(high_first.notes[1].fret == 5);
    const auto low_first = hear({at(0, midi::note_on(1, 41, 80)), at(1, midi::note_on(6, 80, 80))});
    REQUIRE(low_first.strings.has_value());
    CHECK(low_first.strings->low_string_first);
    CHECK(low_first.notes[0].string == 6);
    CHECK(low_first.notes[1].string == 1);
    const auto high_channels =
        hear({at(0, midi::note_on(16, 41, 80)), at(1, midi::note_on(11, 70, 80))});
    REQUIRE(high_channels.strings.has_value());
    CHECK(high_channels.notes[0].string == 6);
}

TEST_CASE("one channel for all gives no strings") {
    const auto heard = hear({at(0, midi::note_on(1, 50, 80)), at(1, midi::note_on(1, 60, 80))});
    CHECK(!heard.strings.has_value());
    CHECK(!heard.notes[0].string.has_value());
    CHECK(heard.notes.size() == 2);
}

TEST_CASE("a note-on with velocity 0 ends a note, and a string struck again ends what it held") {
    const auto heard = hear({at(0, midi::note_on(5, 50, 80)), at(300, midi::note_on(5, 50, 0)),
                             at(400, midi::note_on(5, 52, 80)), at(600, midi::note_on(5, 53, 80))},
                            per_string());
    REQUIRE(heard.notes.size() == 3);
    CHECK(heard.notes[0].off == Seconds(0.3));
    CHECK(heard.notes[1].off == Seconds(0.6));
    CHECK(heard.notes[2].off == Seconds(10));  // never ended: it rings to the end
}

TEST_CASE("a slide by pitch bend is a new note on that string") {
    // Two semitones either way by default (MIDI 1.0).
    const auto heard = hear({at(0, midi::note_on(3, 60, 80)), at(100, midi::pitch_bend(3, 1000)),
                             at(200, midi::pitch_bend(3, 4200)), at(500, midi::note_off(3, 60))},
                            per_string());
    REQUIRE(heard.notes.size() == 2);
    CHECK(heard.notes[0].off == Seconds(0.2));
    CHECK(heard.notes[1].note.number() == 61);
    CHECK(heard.notes[1].fret == 6);
    CHECK(heard.notes[1].slid);
    CHECK(heard.notes[1].off == Seconds(0.5));
}

TEST_CASE("RPN 0 sets the bend range") {
    const auto heard =
        hear({at(0, midi::control_change(3, 101, 0)), at(0, midi::control_change(3, 100, 0)),
              at(0, midi::control_change(3, 6, 12)), at(1, midi::note_on(3, 60, 80)),
              at(200, midi::pitch_bend(3, 8191)), at(500, midi::note_off(3, 60))},
             per_string());
    REQUIRE(heard.notes.size() == 2);
    CHECK(heard.notes[1].note.number() == 72);
}

TEST_CASE("ghosts, double triggers and flickers are left out and counted") {
    const auto ghost = hear({at(0, midi::note_on(5, 50, 90)), at(2, midi::note_on(4, 60, 90)),
                             at(4, midi::note_on(1, 64, 20)), at(40, midi::note_off(1, 64)),
                             at(500, midi::note_off(5, 50)), at(500, midi::note_off(4, 60))},
                            per_string());
    CHECK(ghost.cleaned == listen::Cleaned{1, 0, 0});
    CHECK(ghost.notes.size() == 2);
    const auto twice = hear({at(0, midi::note_on(5, 50, 90)), at(30, midi::note_on(5, 50, 60)),
                             at(500, midi::note_off(5, 50))},
                            per_string());
    CHECK(twice.cleaned == listen::Cleaned{0, 1, 0});
    REQUIRE(twice.notes.size() == 1);
    CHECK(twice.notes[0].on == Seconds(0));
    CHECK(twice.notes[0].off == Seconds(0.5));
    const auto flicker = hear({at(0, midi::note_on(5, 62, 90)), at(20, midi::note_off(5, 62)),
                               at(20, midi::note_on(5, 50, 90)), at(500, midi::note_off(5, 50))},
                              per_string());
    CHECK(flicker.cleaned == listen::Cleaned{0, 0, 1});
    REQUIRE(flicker.notes.size() == 1);
    CHECK(flicker.notes[0].note.number() == 50);
    CHECK(flicker.notes[0].on == Seconds(0));
}

TEST_CASE("what a real take contains is never cleaned away") {
    // Shortest real note 64 ms, shortest real repeat 119 ms in two takes through a six-way pickup.
    const auto heard = hear({at(0, midi::note_on(5, 50, 20)), at(64, midi::note_off(5, 50)),
                             at(119, midi::note_on(5, 50, 90)), at(400, midi::note_off(5, 50))},
                            per_string());
    CHECK(heard.cleaned == listen::Cleaned{});
    CHECK(heard.notes.size() == 2);
}

TEST_CASE("the detection delay is taken off, more for a low string than for a high one") {
    auto settings = per_string();
    settings.delay = {time::from_milliseconds(2), 1.5};
    const auto heard =
        hear({at(100, midi::note_on(6, 40, 80)), at(200, midi::note_on(1, 64, 80))}, settings);
    CHECK(heard.notes[0].on.milliseconds() == Approx(100 - 2 - 1500 / 82.4069).margin(0.001));
    CHECK(heard.notes[1].on.milliseconds() == Approx(200 - 2 - 1500 / 329.628).margin(0.001));
}
