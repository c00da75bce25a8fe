#include "support/catch.hpp"

#include <compline/listen/listener.hpp>
#include <compline/listen/pickup_words.hpp>

#include <cmath>
#include <utility>
#include <vector>

using namespace compline;
using listen::Heard;
using listen::PickupSettings;
using midi::TimedMessage;
using time::Seconds;

namespace {

TimedMessage at(double ms, const midi::Message& message) {
    return {time::from_milliseconds(ms), message};
}

Heard hear(const std::vector<TimedMessage>& messages, const PickupSettings& settings = {}) {
    return listen::hear(messages, settings, Seconds(10));
}

PickupSettings per_string() {
    PickupSettings settings;
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

namespace {

/// A bend that moves in a straight line, sent every 5 ms.
void bend(std::vector<TimedMessage>& messages, double from_ms, double to_ms, double from, double to,
          int channel = 3, double range = 2) {
    for (double ms = from_ms; ms <= to_ms; ms += 5) {
        const double semitones = from + (to - from) * (ms - from_ms) / (to_ms - from_ms);
        const auto value = static_cast<int>(std::lround(semitones / range * 8191));
        messages.push_back(at(ms, midi::pitch_bend(channel, value)));
    }
}

}  // namespace

TEST_CASE("a slide by pitch bend is a new note on that string, from half-way on") {
    // Two semitones either way by default (MIDI 1.0).
    std::vector<TimedMessage> messages{at(0, midi::note_on(3, 60, 80))};
    bend(messages, 180, 220, 0, 1);
    messages.push_back(at(500, midi::note_off(3, 60)));
    const auto heard = hear(messages, per_string());
    REQUIRE(heard.notes.size() == 2);
    CHECK(heard.notes[0].off.milliseconds() == Approx(200).margin(1));
    CHECK(heard.notes[1].on.milliseconds() == Approx(200).margin(1));
    CHECK(heard.notes[1].note.number() == 61);
    CHECK(heard.notes[1].fret == 6);
    CHECK(heard.notes[1].slid);
    CHECK(heard.notes[1].velocity == 80);
    CHECK(heard.notes[1].off == Seconds(0.5));
}

TEST_CASE("a bend that jumps after a rest began to move just before it was sent") {
    const auto heard = hear({at(0, midi::note_on(3, 60, 80)), at(100, midi::pitch_bend(3, 0)),
                             at(1000, midi::pitch_bend(3, 4096)), at(1500, midi::note_off(3, 60))},
                            per_string());
    REQUIRE(heard.notes.size() >= 2);
    CHECK(heard.notes.back().note.number() == 61);
    CHECK(heard.notes.back().on.milliseconds() > 990);
    CHECK(heard.notes.back().on.milliseconds() <= 1000);
}

TEST_CASE("frets that a slide passes are no notes") {
    std::vector<TimedMessage> messages{at(0, midi::note_on(3, 60, 80))};
    bend(messages, 200, 260, 0, 5, 3, 12);
    messages.push_back(at(500, midi::note_off(3, 60)));
    auto settings = per_string();
    settings.bend_range = 12;
    const auto heard = hear(messages, settings);
    REQUIRE(heard.notes.size() == 2);
    CHECK(heard.notes[1].note.number() == 65);
    CHECK(heard.notes[1].on.milliseconds() == Approx(254).margin(1));
}

TEST_CASE("vibrato and quarter-tones are no new notes") {
    std::vector<TimedMessage> messages{at(0, midi::note_on(3, 60, 80))};
    for (double ms = 100; ms < 1100; ms += 7) {
        const double semitones = 0.45 * std::sin(ms / 1000 * 5.5 * 6.2832);
        messages.push_back(at(ms, midi::pitch_bend(3, static_cast<int>(semitones * 4096))));
    }
    bend(messages, 1200, 1300, 0, 0.52);
    bend(messages, 1500, 1600, 0.52, 0.48);
    messages.push_back(at(2000, midi::note_off(3, 60)));
    const auto heard = hear(messages, per_string());
    REQUIRE(heard.notes.size() == 1);
    CHECK(heard.notes[0].off == Seconds(2));
}

TEST_CASE("a bend that comes with the note-on says where the note is") {
    std::vector<TimedMessage> messages{
        at(0, midi::pitch_bend(3, 8191)), at(1, midi::note_on(3, 60, 80)),
        at(3, midi::pitch_bend(3, 4096)), at(500, midi::note_off(3, 60))};
    const auto heard = hear(messages, per_string());
    REQUIRE(heard.notes.size() == 1);
    CHECK(heard.notes[0].note.number() == 61);
    CHECK(heard.notes[0].on.milliseconds() == Approx(1));
    CHECK_FALSE(heard.notes[0].slid);
}

TEST_CASE("a bend beyond all notes is counted and plays nothing") {
    auto settings = per_string();
    settings.bend_range = 24;
    const auto heard = hear({at(0, midi::note_on(3, 120, 80)), at(100, midi::pitch_bend(3, 8191)),
                             at(400, midi::pitch_bend(3, 8190)), at(500, midi::note_off(3, 120)),
                             at(600, midi::note_on(3, 127, 80)), at(700, midi::note_off(3, 127))},
                            settings);
    CHECK(heard.notes.size() == 1);
    CHECK(heard.cleaned.impossible == 2);
}

namespace {

/// What a bend to the end gives, above a note of 60, after these settings of the channel.
int bent_to_the_end(std::vector<TimedMessage> messages, int channel = 3) {
    messages.push_back(at(1, midi::note_on(channel, 60, 80)));
    messages.push_back(at(200, midi::pitch_bend(channel, 8191)));
    messages.push_back(at(500, midi::note_off(channel, 60)));
    const auto heard = hear(messages, per_string());
    return heard.notes.back().note.number() - 60;
}

/// Controller and value, in order.
std::vector<TimedMessage> controls(const std::vector<std::pair<int, int>>& list, int channel = 3) {
    std::vector<TimedMessage> messages;
    for (const auto& [controller, value] : list) {
        messages.push_back(at(0, midi::control_change(channel, controller, value)));
    }
    return messages;
}

}  // namespace

TEST_CASE("RPN 0 sets the bend range of its channel, in semitones and cents") {
    CHECK(bent_to_the_end({}) == 2);
    CHECK(bent_to_the_end(controls({{101, 0}, {100, 0}, {6, 12}})) == 12);
    CHECK(bent_to_the_end(controls({{101, 0}, {100, 0}, {6, 24}, {38, 0}})) == 24);
    CHECK(bent_to_the_end(controls({{101, 0}, {100, 0}, {6, 4}, {38, 90}})) == 5);
    CHECK(bent_to_the_end(controls({{101, 0}, {100, 0}, {6, 12}}, 4)) == 2);
    // Up and down by a cent each: near enough to the third fret, or not.
    std::vector<std::pair<int, int>> steps{{101, 0}, {100, 0}, {6, 2}, {38, 63}};
    CHECK(bent_to_the_end(controls(steps)) == 0);
    steps.insert(steps.end(), 3, {96, 0});
    CHECK(bent_to_the_end(controls(steps)) == 3);
    steps.insert(steps.end(), 3, {97, 0});
    CHECK(bent_to_the_end(controls(steps)) == 0);
}

TEST_CASE("data entry for another parameter, or for none, leaves the bend range alone") {
    CHECK(bent_to_the_end(controls({{6, 12}})) == 2);
    CHECK(bent_to_the_end(controls({{101, 0}, {100, 1}, {6, 12}})) == 2);
    CHECK(bent_to_the_end(controls({{101, 0}, {100, 0}, {101, 127}, {100, 127}, {6, 12}})) == 2);
    CHECK(bent_to_the_end(controls({{101, 0}, {100, 0}, {99, 0}, {98, 0}, {6, 12}})) == 2);
}

TEST_CASE("in mono mode what is set on the channel below the strings holds for all of them") {
    const auto set = controls({{101, 0}, {100, 0}, {6, 12}}, 16);
    CHECK(bent_to_the_end(set) == 12);
    CHECK(bent_to_the_end(set, 6) == 12);
}

TEST_CASE("reset all controllers puts the bend back and keeps its range") {
    std::vector<TimedMessage> messages = controls({{101, 0}, {100, 0}, {6, 12}});
    messages.push_back(at(0, midi::pitch_bend(3, 8191)));
    messages.push_back(at(1, midi::control_change(3, 121, 0)));
    CHECK(bent_to_the_end(messages) == 12);
    messages.push_back(at(2, midi::note_on(3, 60, 80)));
    CHECK(hear(messages, per_string()).notes.back().note.number() == 60);
}

TEST_CASE("a hammer-on's end gives the lower note back") {
    const auto heard = hear({at(0, midi::note_on(3, 60, 80)), at(200, midi::note_on(3, 62, 70)),
                             at(350, midi::note_off(3, 62)), at(600, midi::note_off(3, 60))},
                            per_string());
    REQUIRE(heard.notes.size() == 3);
    CHECK(heard.notes[0].off == Seconds(0.2));
    CHECK(heard.notes[1].off == Seconds(0.35));
    CHECK(heard.notes[2].note.number() == 60);
    CHECK(heard.notes[2].on == Seconds(0.35));
    CHECK(heard.notes[2].off == Seconds(0.6));
    CHECK(heard.cleaned == listen::Cleaned{});
}

TEST_CASE("a lower note whose note-off was lost does not come back for ever") {
    std::vector<TimedMessage> messages{at(0, midi::note_on(5, 49, 80))};
    for (int i = 1; i <= 4; ++i) {
        messages.push_back(at(i * 1500, midi::note_on(5, 51, 80)));
        messages.push_back(at(i * 1500 + 400, midi::note_off(5, 51)));
    }
    const auto heard = hear(messages, per_string());
    REQUIRE(heard.notes.size() == 5);
    for (std::size_t i = 1; i < 5; ++i) CHECK(heard.notes[i].note.number() == 51);
}

TEST_CASE("a note-off that comes after the next note-on of its string ends nothing else") {
    const auto heard = hear({at(0, midi::note_on(3, 60, 80)), at(400, midi::note_on(3, 65, 80)),
                             at(405, midi::note_off(3, 60)), at(900, midi::note_off(3, 65))},
                            per_string());
    REQUIRE(heard.notes.size() == 2);
    CHECK(heard.notes[1].off == Seconds(0.9));
    const auto same = hear({at(0, midi::note_on(3, 60, 80)), at(400, midi::note_on(3, 60, 80)),
                            at(405, midi::note_off(3, 60)), at(900, midi::note_off(3, 60))},
                           per_string());
    REQUIRE(same.notes.size() == 2);
    CHECK(same.notes[0].off == Seconds(0.4));
    CHECK(same.notes[1].off == Seconds(0.9));
}

TEST_CASE("all notes off, all sound off and a change of mode end what sounds") {
    for (const int controller : {120, 123, 124, 125, 126, 127}) {
        const auto heard =
            hear({at(0, midi::note_on(3, 60, 80)), at(0, midi::note_on(4, 55, 80)),
                  at(300, midi::control_change(3, controller, 0)), at(500, midi::note_off(4, 55))},
                 per_string());
        REQUIRE(heard.notes.size() == 2);
        CHECK(heard.notes[0].off == Seconds(0.3));
        CHECK(heard.notes[1].off == Seconds(0.5));
    }
}

TEST_CASE("a note whose end was lost ends with its chord, and so spoils nothing that follows") {
    const auto heard = hear({at(0, midi::note_on(3, 60, 80)), at(2, midi::note_on(4, 55, 80)),
                             at(4, midi::note_on(5, 50, 80)), at(900, midi::note_off(3, 60)),
                             at(910, midi::note_off(4, 55)), at(1000, midi::note_on(4, 57, 80)),
                             at(1900, midi::note_off(4, 57))},
                            per_string());
    REQUIRE(heard.notes.size() == 4);
    CHECK(heard.notes[2].string == 5);
    CHECK(heard.notes[2].off.milliseconds() == Approx(910));
    CHECK(heard.cleaned.unended == 1);
    // Alone, it ends with the next chord.
    const auto alone = hear({at(0, midi::note_on(6, 43, 80)), at(1000, midi::note_on(3, 60, 80)),
                             at(1003, midi::note_on(4, 55, 80)), at(1900, midi::note_off(3, 60)),
                             at(1900, midi::note_off(4, 55))},
                            per_string());
    CHECK(alone.notes[0].off.milliseconds() == Approx(1000));
}

TEST_CASE("a string that still rings when the take ends is no lost end") {
    const auto heard = hear({at(9000, midi::note_on(3, 60, 80)), at(9002, midi::note_on(4, 55, 80)),
                             at(9400, midi::note_off(4, 55))},
                            per_string());
    CHECK(heard.notes[0].off == Seconds(10));
    CHECK(heard.cleaned.unended == 0);
}

TEST_CASE("ghosts, double triggers and flickers are left out and counted") {
    const auto ghost = hear({at(0, midi::note_on(5, 50, 90)), at(2, midi::note_on(4, 60, 90)),
                             at(4, midi::note_on(1, 64, 20)), at(40, midi::note_off(1, 64)),
                             at(500, midi::note_off(5, 50)), at(500, midi::note_off(4, 60))},
                            per_string());
    CHECK(ghost.cleaned == listen::Cleaned{.ghosts = 1});
    CHECK(ghost.notes.size() == 2);
    const auto twice = hear({at(0, midi::note_on(5, 50, 90)), at(30, midi::note_on(5, 50, 60)),
                             at(500, midi::note_off(5, 50))},
                            per_string());
    CHECK(twice.cleaned == listen::Cleaned{.double_triggers = 1});
    REQUIRE(twice.notes.size() == 1);
    CHECK(twice.notes[0].on == Seconds(0));
    CHECK(twice.notes[0].off == Seconds(0.5));
    const auto flicker = hear({at(0, midi::note_on(5, 62, 90)), at(20, midi::note_off(5, 62)),
                               at(20, midi::note_on(5, 50, 90)), at(500, midi::note_off(5, 50))},
                              per_string());
    CHECK(flicker.cleaned == listen::Cleaned{.flickers = 1});
    REQUIRE(flicker.notes.size() == 1);
    CHECK(flicker.notes[0].note.number() == 50);
    CHECK(flicker.notes[0].on == Seconds(0));
}

TEST_CASE("a flicker in the middle of a note does not strike it again") {
    const auto heard = hear({at(0, midi::note_on(5, 50, 90)), at(300, midi::note_on(5, 62, 40)),
                             at(330, midi::note_on(5, 50, 40)), at(800, midi::note_off(5, 50))},
                            per_string());
    REQUIRE(heard.notes.size() == 1);
    CHECK(heard.notes[0].off == Seconds(0.8));
    CHECK(heard.notes[0].velocity == 90);
    CHECK(heard.cleaned.flickers == 1);
}

TEST_CASE("a string struck again, an overtone off at first, is struck again") {
    const auto heard = hear({at(0, midi::note_on(4, 57, 80)), at(240, midi::note_off(4, 57)),
                             at(247, midi::note_on(4, 45, 78)), at(289, midi::note_off(4, 45)),
                             at(289, midi::note_on(4, 57, 78)), at(800, midi::note_off(4, 57))},
                            per_string());
    REQUIRE(heard.notes.size() == 2);
    CHECK(heard.notes[1].on.milliseconds() == Approx(247));
    CHECK(heard.cleaned.flickers == 1);
}

TEST_CASE("a string struck again as loud, an overtone off and without a gap, is struck again") {
    const auto heard = hear({at(0, midi::note_on(4, 57, 80)), at(400, midi::note_on(4, 69, 78)),
                             at(430, midi::note_on(4, 57, 78)), at(800, midi::note_off(4, 57))},
                            per_string());
    REQUIRE(heard.notes.size() == 2);
    CHECK(heard.notes[1].on.milliseconds() == Approx(400));
}

TEST_CASE("a double trigger is seen behind a flicker, and a flicker within a double trigger") {
    const auto behind = hear({at(0, midi::note_on(4, 72, 80)), at(45, midi::note_on(4, 53, 80)),
                              at(71, midi::note_on(4, 53, 70)), at(500, midi::note_off(4, 53))},
                             per_string());
    CHECK(behind.notes.size() == 1);
    const auto within = hear({at(0, midi::note_on(4, 53, 80)), at(20, midi::note_off(4, 53)),
                              at(30, midi::note_on(4, 65, 80)), at(45, midi::note_on(4, 53, 80)),
                              at(500, midi::note_off(4, 53))},
                             per_string());
    CHECK(within.notes.size() == 1);
    CHECK(within.notes[0].off == Seconds(0.5));
}

TEST_CASE(
    "what a string sends is mended by the times at which it was sent, whatever the delay of its "
    "pitch") {
    // Corrected first, the two would lie 13 ms apart, and the ghost be 60 ms long.
    auto settings = per_string();
    settings.delay.cycles = 1.5;
    const auto heard = hear({at(0, midi::note_on(4, 39, 80)), at(23, midi::note_off(4, 39)),
                             at(23, midi::note_on(4, 58, 80)), at(30, midi::note_on(6, 40, 20)),
                             at(72, midi::note_off(6, 40)), at(500, midi::note_off(4, 58))},
                            settings);
    REQUIRE(heard.notes.size() == 1);
    CHECK(heard.cleaned == listen::Cleaned{.ghosts = 1, .flickers = 1});
    // The flicker was found later than its note would have been, by as much as it is lower.
    CHECK(heard.notes[0].on.milliseconds() == Approx(-1500 / 77.782).margin(0.01));
    CHECK(heard.notes[0].length().milliseconds() == Approx(500 + 1500 / 77.782 - 1500 / 233.082));
}

TEST_CASE("a ghost beside a real note of its own string, or alone between strums, is left out") {
    const auto heard = hear({at(0, midi::note_on(5, 50, 20)), at(15, midi::note_off(5, 50)),
                             at(30, midi::note_on(5, 55, 90)), at(31, midi::note_on(4, 60, 90)),
                             at(600, midi::note_on(2, 62, 20)), at(625, midi::note_off(2, 62)),
                             at(900, midi::note_off(5, 55)), at(900, midi::note_off(4, 60))},
                            per_string());
    CHECK(heard.notes.size() == 2);
    CHECK(heard.cleaned.ghosts == 2);
}

TEST_CASE("an open string that sounds softly as a finger leaves it is left out") {
    const auto after = [](int velocity, int chord) {
        return hear({at(0, midi::note_on(3, 60, 90)), at(0, midi::note_on(4, 57, 90)),
                     at(500, midi::note_off(3, 60)), at(510, midi::note_on(3, 55, velocity)),
                     at(515, midi::note_off(4, 57)), at(520, midi::note_on(4, 53, chord)),
                     at(520, midi::note_on(2, 60, chord)), at(900, midi::note_off(3, 55)),
                     at(900, midi::note_off(4, 53)), at(900, midi::note_off(2, 60))},
                    per_string());
    };
    CHECK(after(30, 90).cleaned == listen::Cleaned{.lift_offs = 1});
    CHECK(after(30, 90).notes.size() == 4);
    // Picked, or part of a chord as soft as itself.
    CHECK(after(80, 90).notes.size() == 5);
    CHECK(after(30, 35).notes.size() == 5);
}

TEST_CASE("a unit that sends a slide fret by fret is heard as one slide") {
    const auto heard = hear({at(0, midi::note_on(3, 60, 80)), at(400, midi::note_on(3, 61, 80)),
                             at(402, midi::note_off(3, 60)), at(425, midi::note_on(3, 62, 80)),
                             at(427, midi::note_off(3, 61)), at(450, midi::note_on(3, 63, 80)),
                             at(452, midi::note_off(3, 62)), at(900, midi::note_off(3, 63))},
                            per_string());
    REQUIRE(heard.notes.size() == 2);
    CHECK(heard.notes[1].note.number() == 63);
    CHECK(heard.notes[1].slid);
    CHECK(heard.notes[1].on == Seconds(0.45));
    CHECK(heard.cleaned.frets_passed == 2);
}

TEST_CASE("a rule that is turned off leaves everything in") {
    auto settings = per_string();
    listen::read_pickup("ghosts=off double-triggers=off flickers=off lift-offs=off", settings);
    const auto heard = hear({at(0, midi::note_on(5, 62, 90)), at(20, midi::note_on(5, 50, 90)),
                             at(40, midi::note_on(5, 50, 90)), at(60, midi::note_on(1, 64, 9)),
                             at(70, midi::note_off(1, 64)), at(500, midi::note_off(5, 50)),
                             at(505, midi::note_on(5, 45, 9)), at(600, midi::note_off(5, 45))},
                            settings);
    CHECK(heard.notes.size() == 5);
    CHECK(heard.cleaned == listen::Cleaned{});
}

TEST_CASE("which channel is which string is found although a flicker lies beyond the frets") {
    std::vector<TimedMessage> messages;
    for (int i = 0; i < 10; ++i) {
        messages.push_back(at(i * 500, midi::note_on(12, 65, 80)));
        messages.push_back(at(i * 500, midi::note_on(13, 60, 80)));
        messages.push_back(at(i * 500 + 400, midi::note_off(12, 65)));
        messages.push_back(at(i * 500 + 400, midi::note_off(13, 60)));
    }
    messages.push_back(at(4990, midi::note_on(13, 90, 80)));
    const auto heard = hear(messages);
    CHECK(heard.strings == listen::Strings{11, false});
}

TEST_CASE("a guitar of four strings has four channels") {
    PickupSettings settings = per_string();
    settings.fretboard = guitar::Fretboard(guitar::read_tuning("G4 C4 E4 A4"), 15);
    const auto heard =
        hear({at(0, midi::note_on(4, 67, 80)), at(1, midi::note_on(5, 60, 80))}, settings);
    CHECK(heard.notes[0].string == 4);
    CHECK_FALSE(heard.notes[1].string.has_value());
}

TEST_CASE("one channel for all can be asked for, whatever the notes look like") {
    PickupSettings settings;
    listen::read_pickup("poly", settings);
    const auto heard =
        hear({at(0, midi::note_on(5, 50, 80)), at(1, midi::note_on(3, 60, 80))}, settings);
    CHECK_FALSE(heard.strings.has_value());
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
