#include "support/catch.hpp"

#include <compline/band/melody.hpp>
#include <compline/text/bad_input.hpp>

#include <string>

using namespace compline;

namespace {

midi::Track named(const std::string& name) {
    midi::Track track;
    track.add(0, midi::text_event(midi::meta::track_name, name));
    return track;
}

void note(midi::Track& track, int channel, int key, std::int64_t on, std::int64_t off) {
    track.add(on, midi::note_on(channel, key, 77));
    track.add(off, midi::note_off(channel, key));
}

midi::File file_of(std::vector<midi::Track> tracks) {
    midi::File file;
    file.division = 480;
    file.tracks = std::move(tracks);
    return file;
}

std::string refusal(const midi::File& file) {
    try {
        (void)band::read_melody(file);
    } catch (const text::BadInput& error) {
        return error.what();
    }
    return "";
}

}  // namespace

TEST_CASE("a melody is the track of that name, in beats and as it was played") {
    auto piano = named("Piano");
    note(piano, 1, 40, 0, 480);
    auto melody = named("MELODY");
    note(melody, 3, 72, 250, 730);
    note(melody, 3, 74, 960, 1200);
    const auto notes = band::read_melody(file_of({piano, melody}));
    REQUIRE(notes.size() == 2);
    CHECK(notes[0].at.count() == Approx(250.0 / 480));
    CHECK(notes[0].length.count() == Approx(1));
    CHECK(notes[0].note == harmony::MidiNote(72));
    CHECK(notes[0].velocity == 77);
    CHECK(notes[1].at.count() == Approx(2));
}

TEST_CASE("without a name it is the first track with notes, drums aside") {
    auto drums = named("Beat");
    note(drums, 10, 38, 0, 10);
    auto tune = named("Violin");
    note(tune, 10, 38, 0, 10);
    note(tune, 4, 60, 480, 960);
    const auto notes = band::read_melody(file_of({named("Conductor"), drums, tune}));
    REQUIRE(notes.size() == 1);
    CHECK(notes[0].at.count() == Approx(1));
}

TEST_CASE("bar 1 is where the start marker says, and notes before it are left out") {
    auto melody = named("Melody");
    note(melody, 1, 60, 0, 100);
    melody.add(960, midi::text_event(midi::meta::marker, "compline:start"));
    note(melody, 1, 62, 1440, 1920);
    const auto notes = band::read_melody(file_of({melody}));
    REQUIRE(notes.size() == 1);
    CHECK(notes[0].at.count() == Approx(1));
}

TEST_CASE("a note struck again ends the one before, and the track's end ends the last") {
    auto melody = named("Melody");
    melody.add(0, midi::note_on(1, 60, 80));
    melody.add(480, midi::note_on(1, 60, 80));
    melody.end = 1440;
    const auto notes = band::read_melody(file_of({melody}));
    REQUIRE(notes.size() == 2);
    CHECK(notes[0].length.count() == Approx(1));
    CHECK(notes[1].length.count() == Approx(2));
}

TEST_CASE("a file without a melody, or without beats, is refused in words") {
    CHECK(refusal(file_of({named("Melody")})).find("no notes of a melody") != std::string::npos);
    auto frames = file_of({named("Melody")});
    frames.frames_per_second = 25;
    CHECK(refusal(frames).find("count by the frame") != std::string::npos);
    auto endless = named("Melody");
    for (std::int64_t n = 0; n <= static_cast<std::int64_t>(band::most_melody_notes); ++n) {
        note(endless, 1, 60, 2 * n, 2 * n + 1);
    }
    CHECK(refusal(file_of({endless})).find("more than 20000 notes") != std::string::npos);
}
