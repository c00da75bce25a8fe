#include "support/catch.hpp"
#include "support/smf_bytes.hpp"

#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <stdexcept>
#include <utility>
#include <vector>

using namespace compline;
using namespace compline::midi;
using namespace compline::tests;

namespace {

Track track_of(std::vector<TrackEvent> events, std::int64_t end) {
    return Track{std::move(events), end};
}

File file_of(int format, int division, std::vector<Track> tracks) {
    File file;
    file.format = format;
    file.division = division;
    file.tracks = std::move(tracks);
    return file;
}

double seconds_at(const File& file, std::int64_t tick) {
    return TempoTrack(file).time_of(tick).count();
}

}  // namespace

TEST_CASE("a file without a tempo runs at 120 bpm") {
    // Standard MIDI Files 1.0 (MIDI Association): 120 beats a minute unless the file says
    // otherwise.
    const File file = file_of(1, 480, {track_of({}, 0)});
    CHECK(seconds_at(file, 0) == 0.0);
    CHECK(seconds_at(file, 480) == 0.5);
    CHECK(seconds_at(file, 4800) == 5.0);
    CHECK(seconds_at(file, -480) == -0.5);
}

TEST_CASE("a tempo counts from its tick on, and the time before it stays") {
    // By hand: two quarters at 60 bpm = 2 s, then 240 bpm = 0.25 s a quarter, then from quarter 6
    // (2 + 4 x 0.25 = 3 s) 100 bpm = 0.6 s a quarter.
    const File file = file_of(1, 960,
                              {track_of({{0, tempo_event(time::Bpm(60))},
                                         {1920, tempo_event(time::Bpm(240))},
                                         {5760, tempo_event(time::Bpm(100))}},
                                        9600)});
    CHECK(seconds_at(file, -960) == Approx(-1.0).epsilon(1e-12));
    CHECK(seconds_at(file, 480) == Approx(0.5).epsilon(1e-12));
    CHECK(seconds_at(file, 1920) == Approx(2.0).epsilon(1e-12));
    CHECK(seconds_at(file, 2880) == Approx(2.25).epsilon(1e-12));
    CHECK(seconds_at(file, 5760) == Approx(3.0).epsilon(1e-12));
    CHECK(seconds_at(file, 6720) == Approx(3.6).epsilon(1e-12));
    CHECK(flatten(file).length.count() == Approx(5.4).epsilon(1e-12));
}

TEST_CASE("the first tempo may come late: until then it is 120 bpm") {
    const File file = file_of(1, 960, {track_of({{1920, tempo_event(time::Bpm(60))}}, 1920)});
    CHECK(seconds_at(file, 1920) == Approx(1.0).epsilon(1e-12));
    CHECK(seconds_at(file, 2880) == Approx(2.0).epsilon(1e-12));
}

TEST_CASE("a tempo is heard whichever track it stands in") {
    const File file = file_of(1, 960,
                              {track_of({{1920, tempo_event(time::Bpm(120))}}, 1920),
                               track_of({{0, tempo_event(time::Bpm(60))}}, 960)});
    CHECK(seconds_at(file, 960) == Approx(1.0).epsilon(1e-12));
    CHECK(seconds_at(file, 2880) == Approx(2.5).epsilon(1e-12));
}

TEST_CASE("of two tempos on one tick the later in the file counts") {
    const File file = file_of(1, 960,
                              {track_of({{960, tempo_event(time::Bpm(60))}}, 960),
                               track_of({{960, tempo_event(time::Bpm(240))}}, 960)});
    CHECK(seconds_at(file, 1920) == Approx(0.75).epsilon(1e-12));
}

TEST_CASE("tempo resolution is one microsecond a quarter, MIDI's own") {
    // 132 bpm is 454,545.4545 us a quarter, written as 454,545: 7.3 us short after 16 beats.
    const File file = file_of(1, 15360, {track_of({{0, tempo_event(time::Bpm(132))}}, 0)});
    CHECK(seconds_at(file, 15360) == Approx(0.454545).epsilon(1e-12));
    CHECK(seconds_at(file, 16 * 15360) == Approx(16 * 60.0 / 132).margin(7.3e-6));
}

TEST_CASE("times never go backwards, whatever the tempos") {
    for (std::uint32_t seed = 0; seed < 100; ++seed) {
        File file = random_file(seed);
        file.format = file.tracks.size() == 1 ? 0 : 1;
        const Recording recording = flatten(file);
        double before = 0;
        for (const auto& timed : recording.messages) {
            if (!(timed.at.count() >= before)) FAIL("seed " << seed);
            before = timed.at.count();
        }
        if (!(recording.length.count() >= before)) FAIL("length, seed " << seed);
    }
}

TEST_CASE("SMPTE ticks are parts of a frame, and tempo has no say") {
    // SMF 1.0: 25 frames of 40 ticks are milliseconds; 29 stands for 30 drop-frame, 30000/1001 a
    // second; from memory.
    File file = file_of(0, 40, {track_of({{0, tempo_event(time::Bpm(60))}}, 0)});
    file.frames_per_second = 25;
    CHECK(seconds_at(file, 1234) == Approx(1.234).epsilon(1e-12));
    file.frames_per_second = 24;
    CHECK(seconds_at(file, 960) == Approx(1.0).epsilon(1e-12));
    file.frames_per_second = 30;
    file.division = 80;
    CHECK(seconds_at(file, 2400) == Approx(1.0).epsilon(1e-12));
    file.frames_per_second = 29;
    CHECK(seconds_at(file, 30000 * 80) == Approx(1001.0).epsilon(1e-12));
}

TEST_CASE("a recording is one stream: by time, within a tick as the file has it") {
    const File file = file_of(1, 960,
                              {track_of({{960, text_event(meta::marker, "compline:start")},
                                         {960, note_on(1, 60, 1)},
                                         {1920, note_off(1, 60)}},
                                        1920),
                               track_of({{0, text_event(meta::track_name, "bass")},
                                         {0, time_signature_event(3, 4)},
                                         {0, SystemExclusive{{0xF0, 0xF7}}},
                                         {0, note_on(2, 40, 2)},
                                         {960, note_on(2, 40, 0)},
                                         {960, note_on(2, 41, 3)}},
                                        3840)});
    const Recording recording = flatten(file);
    std::vector<std::pair<double, Message>> heard;
    for (const auto& [at, message] : recording.messages) heard.emplace_back(at.count(), message);
    const std::vector<std::pair<double, Message>> expected{{0.0, note_on(2, 40, 2)},
                                                           {0.5, note_on(1, 60, 1)},
                                                           {0.5, note_on(2, 40, 0)},
                                                           {0.5, note_on(2, 41, 3)},
                                                           {1.0, note_off(1, 60)}};
    CHECK(heard == expected);
    REQUIRE(recording.texts.size() == 2);
    CHECK(recording.texts[0].text == "bass");
    CHECK(recording.texts[0].type == meta::track_name);
    CHECK(recording.texts[1].text == "compline:start");
    CHECK(recording.texts[1].at.count() == 0.5);
    CHECK(recording.length.count() == 2.0);
}

TEST_CASE("patterns of format 2 have no common time: one is heard, several are refused") {
    File file = file_of(2, 960, {track_of({{960, note_on(1, 60, 1)}}, 960)});
    CHECK(flatten(file).messages.at(0).at.count() == 0.5);
    file.tracks.push_back(file.tracks[0]);
    CHECK(read_smf(write_smf(file)).file == file);
    CHECK_THROWS_AS(TempoTrack(file), text::BadInput);
    try {
        (void)flatten(file);
        FAIL_CHECK("it was heard");
    } catch (const text::BadInput& error) {
        CHECK(error.offset() == 8);
        CHECK(std::string(error.what()).find("format 2, 2 patterns independent of each other") !=
              std::string::npos);
    }
}

TEST_CASE("a tempo map is made of tempos only") {
    CHECK_THROWS_AS(TempoTrack(file_of(1, 0, {track_of({}, 0)})), std::invalid_argument);
    CHECK_THROWS_AS(TempoTrack(file_of(1, 960, {track_of({{0, MetaEvent{meta::tempo, ""}}}, 0)})),
                    std::invalid_argument);
}
