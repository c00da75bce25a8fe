#include "support/catch.hpp"
#include "support/smf_bytes.hpp"

#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <string>
#include <vector>

using namespace compline::midi;
using namespace compline::tests;

namespace {

struct Malformed {
    std::string what;
    Bytes bytes;
    std::size_t offset;
    std::string words;
};

// In one_track(...) the events begin at byte 22: 14 of header, 8 of the track chunk's start.
std::vector<Malformed> broken_headers() {
    const Bytes end = track(hex("00 FF 2F 00"));
    return {
        {"nothing at all", {}, 0, "the end of the data after 0 bytes, expected a header chunk"},
        {"a chart", ascii("title: Lantern Street\n"), 0,
         "found \"titl\", expected \"MThd\", the start of a Standard MIDI File"},
        {"a wave file", ascii("RIFF") + hex("24000000") + ascii("WAVEfmt "), 0, "found \"RIFF\""},
        {"binary data", hex("7F 45 4C 46 02 01 01 00 00 00 00 00 00 00 00 00"), 0,
         "found bytes 7F 45 4C 46, expected \"MThd\""},
        {"half a header", ascii("MThd") + hex("00000006 0001"), 10,
         "the end of the data after 10 bytes"},
        {"a short header", ascii("MThd") + hex("00000005 0001 0001 00") + end, 4,
         "a header of 5 bytes, expected at least 6"},
        {"a header longer than the file", ascii("MThd") + hex("7FFFFFFF 0001 0001 0060"), 4,
         "a header of 2147483647 bytes, expected at most the 6 that follow"},
        {"format 3", header(3, 1, 96) + end, 8, "format 3, expected 0, 1 or 2"},
        {"no tracks", header(1, 0, 96), 10, "0 tracks, expected at least one"},
        {"two tracks in format 0", header(0, 2, 96) + end + end, 10,
         "2 tracks, expected one track in format 0"},
        {"division 0", header(1, 1, 0) + end, 12, "a division of 0, expected 1 to 32767"},
        {"26 frames a second", header(1, 1, 0xE628) + end, 12,
         "26 frames a second, 40 ticks a frame, expected 24, 25, 29 or 30"},
        {"no ticks in a frame", header(1, 1, 0xE700) + end, 12, "25 frames a second, 0 ticks"},
    };
}

std::vector<Malformed> broken_chunks() {
    const Bytes end = track(hex("00 FF 2F 00"));
    return {
        {"no track", header(1, 1, 96), 14,
         "the end of the data, expected a track chunk (\"MTrk\")"},
        {"a track chunk without its length", header(1, 1, 96) + ascii("MTrk") + hex("0000"), 14,
         "the end of the data, expected a track chunk"},
        {"only an unknown chunk that never ends",
         header(1, 1, 96) + ascii("XFIH") + hex("00000100"), 14,
         "\"XFIH\" of 256 bytes, past the end of the data, expected a track chunk"},
        {"no chunk where one should be", header(1, 2, 96) + end + hex("00000000 00000000"), 26,
         "found bytes 00 00 00 00, expected the name of a chunk"},
        {"a track more than the header says", header(1, 1, 96) + end + end, 26,
         "one more track chunk, expected 1, as the header says"},
        {"a track without an end before another",
         header(1, 2, 96) + track(hex("00 90 3C 40")) + end, 26,
         "the end of the track chunk, expected an end-of-track event"},
        {"an empty track before another", header(1, 2, 96) + track({}) + end, 22,
         "the end of the track chunk, expected an end-of-track event"},
        {"an event across the end of its track",
         header(1, 2, 96) + track(hex("00 90 3C 40 00 90 3C")) + end, 26,
         "an event that runs past the end of its track at byte 29"},
        {"a text across the end of its track", one_track("00 FF 01 05 41 42"), 22,
         "an event that runs past the end of its track at byte 28"},
        {"bytes after the end of a track", one_track("00 FF 2F 00 00 90 3C 40"), 26,
         "4 bytes after the end-of-track event"},
    };
}

std::vector<Malformed> broken_events() {
    return {
        {"a data byte with no status", one_track("00 3C 40  00 FF 2F 00"), 23,
         "data byte 0x3C, expected a status byte"},
        {"running status after a meta event",
         one_track("00 90 3C 40  00 FF 01 00  00 3C 00  00 FF 2F 00"), 31,
         "data byte 0x3C, expected a status byte (0x80 or more): no running status here"},
        {"running status after system exclusive",
         one_track("00 90 3C 40  00 F0 01 F7  00 3C 00  00 FF 2F 00"), 31, "data byte 0x3C"},
        {"a status byte for a note number", one_track("00 90 90 40  00 FF 2F 00"), 24,
         "0x90, expected a data byte (0x00 to 0x7F) of message 0x90"},
        {"a velocity with the high bit", one_track("00 90 3C C0  00 FF 2F 00"), 25,
         "0xC0, expected a data byte"},
        {"a program with the high bit", one_track("00 C3 FF  00 FF 2F 00"), 24,
         "0xFF, expected a data byte (0x00 to 0x7F) of message 0xC3"},
        {"a time code message", one_track("00 F1 00  00 FF 2F 00"), 23,
         "system message 0xF1, expected a channel message, a meta event"},
        {"a tune request", one_track("00 90 3C 40 00 F6  00 FF 2F 00"), 27, "system message 0xF6"},
        {"a clock", one_track("00 F8  00 FF 2F 00"), 23, "system message 0xF8"},
        {"active sensing", one_track("00 FE  00 FF 2F 00"), 23, "system message 0xFE"},
        {"a tempo of 0", one_track("00 FF 51 03 00 00 00  00 FF 2F 00"), 26,
         "a tempo of 0 microseconds a quarter note"},
        {"a tempo of two bytes", one_track("00 FF 51 02 07 A1  00 FF 2F 00"), 25,
         "a length of 2, expected 3 in a tempo event"},
        {"an end of track with data", one_track("00 FF 2F 01 00"), 25,
         "a length of 1, expected 0 in an end-of-track event"},
        {"a meta type with the high bit", one_track("00 FF 81 00  00 FF 2F 00"), 24,
         "meta event type 0x81, expected 0x00 to 0x7F"},
        {"a time of five bytes", one_track("81 80 80 80 00 90 3C 40  00 FF 2F 00"), 22,
         "a variable-length quantity of more than 4 bytes, expected at most 4"},
        {"a length of five bytes", one_track("00 FF 01 80 80 80 80 00  00 FF 2F 00"), 25,
         "a variable-length quantity of more than 4 bytes"},
        {"data bytes that break off before a wrong one", one_track("00 E0 00 80"), 25,
         "0x80, expected a data byte"},
    };
}

void check_refused(const Malformed& malformed) {
    INFO(malformed.what);
    try {
        (void)read_smf(malformed.bytes);
        FAIL_CHECK("it was read");
    } catch (const compline::text::BadInput& error) {
        const std::string said = error.what();
        CHECK(error.offset() == malformed.offset);
        CHECK(said.find("byte " + std::to_string(malformed.offset) + ": found ") == 0);
        INFO("said: " << said);
        CHECK(said.find(malformed.words) != std::string::npos);
        CHECK(said.find(", expected ") != std::string::npos);
    }
}

}  // namespace

TEST_CASE("a malformed header is refused with its place, what was found and what was expected") {
    for (const Malformed& malformed : broken_headers()) check_refused(malformed);
}

TEST_CASE("malformed chunks are refused with their place, what was found and what was expected") {
    for (const Malformed& malformed : broken_chunks()) check_refused(malformed);
}

TEST_CASE("malformed events are refused with their place, what was found and what was expected") {
    for (const Malformed& malformed : broken_events()) check_refused(malformed);
}

TEST_CASE("a file of absurd length is refused, its ticks never overflow") {
    // 4,096 steps of 2^28 - 1 ticks stay just under 2^40; one more does not.
    std::string body;
    for (int i = 0; i < 4096; ++i) body += "FF FF FF 7F C0 00 ";
    CHECK(read_smf(one_track(body + "00 FF 2F 00")).file.tracks.at(0).end == 4096 * 0x0FFFFFFFLL);
    try {
        (void)read_smf(one_track(body + "FF FF FF 7F FF 2F 00"));
        FAIL_CHECK("it was read");
    } catch (const compline::text::BadInput& error) {
        CHECK(error.offset() == 22 + 4096 * 6);
        CHECK(std::string(error.what()).find("at most 1099511627776 ticks") != std::string::npos);
    }
}
