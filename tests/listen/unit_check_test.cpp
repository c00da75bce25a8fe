// What a MIDI pickup's unit sends when a string is tried.

#include "support/catch.hpp"

#include <compline/listen/unit_check.hpp>

#include <vector>

using namespace compline;
using listen::Strings;
using midi::TimedMessage;
using time::Seconds;

namespace {

const auto standard = guitar::Fretboard::standard();

TimedMessage at(double ms, const midi::Message& message) {
    return {time::from_milliseconds(ms), message};
}

std::vector<listen::NoteSeen> seen(const std::vector<TimedMessage>& messages, double range = 2) {
    return listen::notes_seen(messages, range, Seconds(1));
}

std::vector<TimedMessage> tells_range(int semitones, int channel = 1) {
    return {at(0, midi::control_change(channel, 101, 0)),
            at(0, midi::control_change(channel, 100, 0)),
            at(0, midi::control_change(channel, 6, semitones))};
}

}  // namespace

TEST_CASE("how far a string is out of tune is the bend that stays, not the pull of the pick") {
    // 2048 of 8192 steps of two semitones are 50 cents, 410 are 10.
    const auto notes = seen({at(0, midi::note_on(6, 40, 88)), at(0, midi::pitch_bend(6, 2048)),
                             at(100, midi::pitch_bend(6, 410)), at(500, midi::note_off(6, 40))});
    REQUIRE(notes.size() == 1);
    CHECK(notes[0].channel == 6);
    CHECK(notes[0].key.number() == 40);
    CHECK(notes[0].velocity == 88);
    CHECK(notes[0].cents == Approx(10.01).margin(0.01));
    const auto sways = seen({at(0, midi::note_on(6, 40, 88)), at(100, midi::pitch_bend(6, 410)),
                             at(300, midi::pitch_bend(6, -410)), at(500, midi::note_off(6, 40))});
    CHECK(sways[0].cents == Approx(0).margin(0.01));
    // Of a note that is over before, what it was bent by.
    const auto brief = seen({at(0, midi::pitch_bend(6, 410)), at(0, midi::note_on(6, 40, 88)),
                             at(50, midi::note_off(6, 40))});
    CHECK(brief[0].cents == Approx(10.01).margin(0.01));
}

TEST_CASE("cents are counted by the range that the unit told, each channel its own") {
    auto messages = tells_range(12, 6);
    messages.push_back(at(1, midi::note_on(6, 40, 88)));
    messages.push_back(at(1, midi::pitch_bend(6, 410)));
    messages.push_back(at(2, midi::note_on(5, 45, 88)));
    messages.push_back(at(2, midi::pitch_bend(5, 410)));
    const auto notes = seen(messages);
    REQUIRE(notes.size() == 2);
    CHECK(notes[0].cents == Approx(60.06).margin(0.01));
    CHECK(notes[1].cents == Approx(10.01).margin(0.01));
    CHECK(listen::bend_range_told(messages) == 12);
}

TEST_CASE("a unit that tells no bend range told none") {
    CHECK(listen::bend_range_told(std::vector{at(0, midi::note_on(6, 40, 88))}) == std::nullopt);
    CHECK(listen::bend_range_told(std::vector{at(0, midi::control_change(1, 6, 24))}) ==
          std::nullopt);
    CHECK(listen::bend_range_told(tells_range(0)) == 0);
    // Another parameter.
    CHECK(listen::bend_range_told(std::vector{
              at(0, midi::control_change(1, 101, 0)), at(0, midi::control_change(1, 100, 1)),
              at(0, midi::control_change(1, 6, 24))}) == std::nullopt);
}

TEST_CASE("a note is known to be of a string by its channel, or by the open string it is") {
    const auto note = [](int channel, int key) {
        return listen::NoteSeen{Seconds(0), channel, harmony::MidiNote(key), 80, 0};
    };
    CHECK(listen::string_seen(note(16, 41), Strings{11, false}, standard) == 6);
    CHECK(listen::string_seen(note(1, 41), Strings{1, true}, standard) == 6);
    CHECK(listen::string_seen(note(9, 40), Strings{}, standard) == std::nullopt);
    CHECK(listen::string_seen(note(1, 45), std::nullopt, standard) == 5);
    CHECK(listen::string_seen(note(1, 46), std::nullopt, standard) == std::nullopt);
}

TEST_CASE("a strum's loudness is that of the loudest note of each string") {
    const auto strum = seen({at(0, midi::note_on(6, 40, 60)), at(1, midi::note_on(5, 45, 90)),
                             at(2, midi::note_on(5, 45, 12)), at(3, midi::note_on(1, 64, 127)),
                             at(4, midi::note_on(9, 64, 99))});
    CHECK(listen::velocities_by_string(strum, Strings{}, standard) ==
          std::vector<int>{127, 0, 0, 0, 90, 60});
    CHECK(listen::velocities_by_string({}, Strings{}, standard) == std::vector<int>(6, 0));
}
