// Files may hold what no guitar can play. A hundred thousand notes that begin together are heard as
// soon as a hundred thousand one after the other: were each compared with each, every test here
// would take minutes.

#include "support/catch.hpp"

#include <compline/listen/listener.hpp>

#include <algorithm>
#include <vector>

using namespace compline;
using midi::TimedMessage;
using time::Seconds;

namespace {

constexpr int crowd = 100'000;
constexpr int pitches = 128;

TimedMessage at(double ms, const midi::Message& message) {
    return {time::from_milliseconds(ms), message};
}

listen::Heard hear(const std::vector<TimedMessage>& messages,
                   const listen::PickupSettings& settings) {
    return listen::hear(messages, settings, Seconds(10));
}

}  // namespace

TEST_CASE("of a crowd of notes on one channel each pitch is heard once") {
    std::vector<TimedMessage> messages;
    for (int i = 0; i < crowd; ++i) messages.push_back(at(0, midi::note_on(1, i % pitches, 80)));
    const auto heard = hear(messages, {});
    CHECK(heard.notes.size() == pitches);
    CHECK(heard.cleaned.double_triggers == crowd - pitches);
}

TEST_CASE("notes of a crowd whose note-offs were lost end with those that were let go") {
    listen::PickupSettings settings;
    settings.cleaning.double_trigger = Seconds(0);
    std::vector<TimedMessage> messages;
    for (int i = 0; i < crowd; ++i) messages.push_back(at(0, midi::note_on(1, i % pitches, 80)));
    messages.push_back(at(300, midi::note_off(1, (crowd - 1) % pitches)));
    const auto heard = hear(messages, settings);
    CHECK(heard.notes.size() == crowd);
    CHECK(heard.cleaned.unended == pitches - 1);
    CHECK(std::all_of(heard.notes.begin(), heard.notes.end(),
                      [](const listen::Note& note) { return note.off <= Seconds(0.3); }));
}

TEST_CASE("a crowd of short soft notes among loud ones are ghosts") {
    listen::PickupSettings settings;
    settings.cleaning.double_trigger = Seconds(0);
    settings.one_channel = true;
    std::vector<TimedMessage> messages;
    for (int i = 0; i < crowd; ++i) {
        const double ms = 50.0 * i / crowd;
        messages.push_back(at(ms, midi::note_on(1, i % pitches, 10)));
        messages.push_back(at(ms, midi::note_off(1, i % pitches)));
    }
    for (const int pitch : {50, 55, 60}) messages.push_back(at(55, midi::note_on(1, pitch, 100)));
    for (const int pitch : {50, 55, 60}) messages.push_back(at(500, midi::note_off(1, pitch)));
    const auto heard = hear(messages, settings);
    CHECK(heard.notes.size() == 3);
    CHECK(heard.cleaned.ghosts == crowd);
}

TEST_CASE("a crowd on six strings stays on its strings, double triggers joined") {
    constexpr int open[] = {64, 59, 55, 50, 45, 40};
    std::vector<TimedMessage> messages;
    for (int i = 0; i < crowd; ++i) {
        const int string = i % 6;
        messages.push_back(at(0, midi::note_on(string + 1, open[string] + 5, 80)));
    }
    const auto heard = hear(messages, {});
    REQUIRE(heard.notes.size() == 6);
    for (int string = 1; string <= 6; ++string) {
        CHECK(heard.notes[static_cast<std::size_t>(string - 1)].string == string);
    }
}

TEST_CASE("no more notes slide by one bend than a guitar has strings") {
    std::vector<TimedMessage> messages;
    for (int key = 40; key < 50; ++key) messages.push_back(at(0, midi::note_on(1, key, 80)));
    messages.push_back(at(500, midi::pitch_bend(1, 4096)));
    messages.push_back(at(1000, midi::pitch_bend(1, 4096)));
    const auto heard = hear(messages, {});
    REQUIRE(heard.notes.size() == 10 + 6);
    for (std::size_t i = 10; i < heard.notes.size(); ++i) {
        CHECK(heard.notes[i].note.number() == static_cast<int>(i) - 10 + 45);  // 44 and on, bent
    }
}
