#include "support/catch.hpp"
#include "support/smf_bytes.hpp"

#include <compline/midi/smf.hpp>

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

using namespace compline;
using namespace compline::midi;
using namespace compline::tests;

namespace {

/// One track holding one event.
File file_with(const Event& event, std::int64_t tick = 0) {
    File file;
    file.tracks.emplace_back().add(tick, event);
    return file;
}

std::string refusal(const File& file) {
    try {
        (void)write_smf(file);
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "written";
}

}  // namespace

TEST_CASE("a file that was written reads back the same, and writes the same bytes again") {
    for (std::uint32_t seed = 0; seed < 400; ++seed) {
        const File file = random_file(seed);
        const auto bytes = write_smf(file);
        const ReadFile read = read_smf(bytes);
        if (read.cut_at || !(read.file == file)) FAIL("another file came back, seed " << seed);
        if (write_smf(read.file) != bytes) FAIL("other bytes came back, seed " << seed);
    }
}

TEST_CASE("times between events take the bytes that the standard's table gives") {
    // Standard MIDI Files 1.0 (MIDI Association), table of variable-length quantities; from memory.
    const std::vector<std::pair<std::uint32_t, std::string>> table{
        {0x00000000, "00"},          {0x00000040, "40"},          {0x0000007F, "7F"},
        {0x00000080, "81 00"},       {0x00002000, "C0 00"},       {0x00003FFF, "FF 7F"},
        {0x00004000, "81 80 00"},    {0x00100000, "C0 80 00"},    {0x001FFFFF, "FF FF 7F"},
        {0x00200000, "81 80 80 00"}, {0x08000000, "C0 80 80 00"}, {0x0FFFFFFF, "FF FF FF 7F"},
    };
    for (const auto& [tick, digits] : table) {
        const Bytes expected =
            header(1, 1, 960) + track(hex(digits) + hex("90 3C 40  00 FF 2F 00"));
        CHECK(write_smf(file_with(note_on(1, 60, 64), tick)) == expected);
        CHECK(read_smf(expected).file.tracks.at(0).end == tick);
    }
}

TEST_CASE("a quantity with needless leading zeros is still that quantity") {
    // The standard asks for the fewest bytes; recorders that fill in a length later pad it.
    const auto read = read_smf(one_track("80 80 40 90 3C 40  00 FF 2F 00"));
    CHECK(read.file.tracks.at(0).end == 0x40);
}

TEST_CASE("tempo, time signature and text are written as the standard's own example has them") {
    // SMF 1.0, "an example MIDI file": 4/4 is 04 02 18 08, 120 bpm is 07 A1 20; from memory. 6/8 is
    // written there with a click a dotted quarter; here a click is a unit.
    CHECK(time_signature_event(4, 4) == MetaEvent{0x58, std::string("\x04\x02\x18\x08", 4)});
    CHECK(time_signature_event(3, 4) == MetaEvent{0x58, std::string("\x03\x02\x18\x08", 4)});
    CHECK(time_signature_event(6, 8) == MetaEvent{0x58, std::string("\x06\x03\x0C\x08", 4)});
    CHECK(tempo_event(time::Bpm(120)) == MetaEvent{0x51, std::string("\x07\xA1\x20", 3)});
    // 60,000,000 / 132 = 454,545.45: to the nearest microsecond.
    CHECK(tempo_event(time::Bpm(132)) == MetaEvent{0x51, std::string("\x06\xEF\x91", 3)});
    CHECK(text_event(meta::marker, "B\xE2\x99\xAD") == MetaEvent{0x06, "B\xE2\x99\xAD"});
}

TEST_CASE("no event is made of numbers that it cannot hold") {
    CHECK_THROWS_AS(tempo_event(time::Bpm(3.5)), std::invalid_argument);
    CHECK_THROWS_AS(tempo_event(time::Bpm(0)), std::invalid_argument);
    CHECK_THROWS_AS(tempo_event(time::Bpm(-120)), std::invalid_argument);
    CHECK_THROWS_AS(tempo_event(time::Bpm(1e9)), std::invalid_argument);
    CHECK_THROWS_AS(text_event(0x2F, ""), std::invalid_argument);
    CHECK_THROWS_AS(text_event(0x00, ""), std::invalid_argument);
    CHECK_THROWS_AS(time_signature_event(4, 3), std::invalid_argument);
    CHECK_THROWS_AS(time_signature_event(4, 128), std::invalid_argument);
    CHECK_THROWS_AS(time_signature_event(0, 4), std::invalid_argument);
    CHECK_THROWS_AS(time_signature_event(4, 0), std::invalid_argument);
}

TEST_CASE("what a MIDI file cannot hold is refused with track and event, not written wrong") {
    File empty;
    CHECK(refusal(empty) == "a file has 1 to 65,535 tracks");

    File two = file_with(note_on(1, 60, 1));
    two.tracks.push_back(two.tracks.front());
    two.format = 0;
    CHECK(refusal(two) == "format 0 has one track");
    two.format = 3;
    CHECK(refusal(two) == "the format is 0, 1 or 2");

    File division = file_with(note_on(1, 60, 1));
    division.division = 32768;
    CHECK(refusal(division).find("the division is 1 to 32767") == 0);
    division.division = 256;
    division.frames_per_second = 25;
    CHECK(refusal(division).find("the division is 1 to 32767") == 0);

    File backwards = file_with(note_on(1, 60, 1), 100);
    backwards.tracks[0].add(99, note_off(1, 60));
    CHECK(refusal(backwards) ==
          "track 1: event 2: events stand in the order of their ticks, from 0");
    backwards.tracks[0].events.pop_back();
    backwards.tracks[0].end = 99;
    CHECK(refusal(backwards) == "track 1: the end of a track is not before its last event");
    CHECK(refusal(file_with(note_on(1, 60, 1), -1)).find("in the order of their ticks") !=
          std::string::npos);

    CHECK(refusal(file_with(note_on(1, 60, 1), 0x10000000)) ==
          "track 1: event 1: two events are at most 268,435,455 ticks apart");
    CHECK(refusal(file_with(Message{0x90, 200, 1})) == "track 1: event 1: data bytes are 0 to 127");
    CHECK(refusal(file_with(Message{0xF8, 0, 0})).find("status from 0x80") != std::string::npos);
    CHECK(refusal(file_with(Message{0xC0, 1, 1})).find("one data byte") != std::string::npos);
    CHECK(refusal(file_with(MetaEvent{0x80, ""})).find("0x00 to 0x7F") != std::string::npos);
    CHECK(refusal(file_with(MetaEvent{meta::end_of_track, ""})).find("`end`") != std::string::npos);
    CHECK(
        refusal(file_with(MetaEvent{meta::tempo, std::string(3, '\0')})).find("not all of them") !=
        std::string::npos);
    CHECK(refusal(file_with(SystemExclusive{})).find("0xF0 or 0xF7") != std::string::npos);
}
