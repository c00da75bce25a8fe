#include "support/catch.hpp"
#include "support/smf_bytes.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>
#include <compline/text/bad_input.hpp>

#include <algorithm>
#include <span>
#include <string>
#include <vector>

using namespace compline;
using namespace compline::midi;
using namespace compline::tests;

namespace {

// The two files of SMF 1.0's own example ("an example MIDI file", MIDI Association): the same
// music in format 0, with running status, and in format 1; from memory.
Bytes example_format_0() {
    return header(0, 1, 0x60) +
           track(hex("00 FF 58 04 04 02 18 08  00 FF 51 03 07 A1 20  00 C0 05  00 C1 2E  00 C2 46"
                     "00 92 30 60  00 3C 60  60 91 43 40  60 90 4C 20  81 40 82 30 40  00 3C 40"
                     "00 81 43 40  00 80 4C 40  00 FF 2F 00"),
                 0x3B);
}
Bytes example_format_1() {
    return header(1, 4, 0x60) +
           track(hex("00 FF 58 04 04 02 18 08  00 FF 51 03 07 A1 20  83 00 FF 2F 00"), 0x14) +
           track(hex("00 C0 05  81 40 90 4C 20  81 40 4C 00  00 FF 2F 00"), 0x10) +
           track(hex("00 C1 2E  60 91 43 40  82 20 43 00  00 FF 2F 00"), 0x0F) +
           track(hex("00 C2 46  00 92 30 60  00 3C 60  83 00 30 00  00 3C 00  00 FF 2F 00"), 0x15);
}

struct Onset {
    double at;
    int channel, note, velocity;
    bool operator==(const Onset&) const = default;
};
std::vector<Onset> onsets(const File& file) {
    std::vector<Onset> found;
    for (const auto& [at, message] : flatten(file).messages) {
        if (!message.starts_note()) continue;
        found.push_back({at.count(), message.channel(), message.data1, message.data2});
    }
    return found;
}

bool is_prefix(const std::vector<TrackEvent>& part, const std::vector<TrackEvent>& whole) {
    return part.size() <= whole.size() && std::equal(part.begin(), part.end(), whole.begin());
}

}  // namespace

TEST_CASE("the standard's example sounds the same from format 0 and format 1") {
    // A chord is built over two beats at 120 bpm: C3 C4, G4 after a quarter, E5 after two.
    const std::vector<Onset> expected{
        {0, 3, 48, 96}, {0, 3, 60, 96}, {0.5, 2, 67, 64}, {1, 1, 76, 32}};
    const ReadFile zero = read_smf(example_format_0());
    const ReadFile one = read_smf(example_format_1());
    CHECK_FALSE(zero.cut_at);
    CHECK_FALSE(one.cut_at);
    CHECK(onsets(zero.file) == expected);
    CHECK(onsets(one.file) == expected);
    CHECK(flatten(zero.file).length.count() == 2.0);
    CHECK(flatten(one.file).length.count() == 2.0);
    CHECK(one.file.tracks.size() == 4);
    CHECK(one.file.division == 96);
}

TEST_CASE("running status holds the status over messages of one track") {
    const auto read = read_smf(one_track("00 95 3C 40  10 3C 00  10 3E 41  00 FF 2F 00"));
    const std::vector<TickedMessage> expected{
        {0, note_on(6, 60, 64)}, {16, note_on(6, 60, 0)}, {32, note_on(6, 62, 65)}};
    CHECK(messages_of(read.file.tracks.at(0)) == expected);
    CHECK(read.file.tracks.at(0).events.at(1).tick == 16);
}

TEST_CASE("a note-on with velocity 0 stays what it is and ends the note") {
    const auto read = read_smf(one_track("00 90 3C 40  10 90 3C 00  00 FF 2F 00"));
    const auto messages = messages_of(read.file.tracks.at(0));
    CHECK(messages.at(1).message == note_on(1, 60, 0));
    CHECK(messages.at(1).message.ends_note());
}

TEST_CASE("system exclusive is kept, whole, continued or escaped") {
    // F0 <length> ... F7; a continuation and any other bytes (here a song select) go by F7.
    const auto read = read_smf(one_track(
        "00 F0 05 43 12 00 07 F7  00 F0 03 43 12 00  10 F7 02 43 F7  00 F7 02 F3 01 00 FF 2F 00"));
    const auto& events = read.file.tracks.at(0).events;
    REQUIRE(events.size() == 4);
    CHECK(std::get<SystemExclusive>(events[0].event).bytes == hex("F0 43 12 00 07 F7"));
    CHECK(std::get<SystemExclusive>(events[1].event).bytes == hex("F0 43 12 00"));
    CHECK(std::get<SystemExclusive>(events[2].event).bytes == hex("F7 43 F7"));
    CHECK(events[2].tick == 16);
    CHECK(std::get<SystemExclusive>(events[3].event).bytes == hex("F7 F3 01"));
}

TEST_CASE("long headers, unknown chunks and padding behind the last track are passed over") {
    const Bytes body = track(hex("00 90 3C 40  00 FF 2F 00"));
    const Bytes long_header = ascii("MThd") + hex("00000008 0001 0002 0060 AAAA");
    const Bytes unknown = ascii("XFIH") + hex("00000003 010203");
    for (const Bytes& tail : {Bytes{}, unknown, hex("1A1A1A"), hex("00000000 00000000 00000000"),
                              ascii("junk, not a chunk")}) {
        const auto read = read_smf(long_header + unknown + body + unknown + body + tail);
        CHECK_FALSE(read.cut_at);
        CHECK(read.file.tracks.size() == 2);
        CHECK(read.file.tracks.back().events.size() == 1);
    }
}

TEST_CASE("SMPTE divisions are frames a second and ticks a frame") {
    const Bytes body = track(hex("00 FF 2F 00"));
    const auto file = read_smf(header(0, 1, 0xE728) + body).file;  // -25, 40
    CHECK(file.frames_per_second == 25);
    CHECK(file.division == 40);
    CHECK(read_smf(header(0, 1, 0xE3FF) + body).file.frames_per_second == 29);
}

TEST_CASE("of a file that breaks off, every whole event is read and the place is given") {
    File file = random_file(7);
    file.format = 1;
    file.tracks.resize(2);
    file.tracks[0].events = {{0, tempo_event(time::Bpm(132))},
                             {0, text_event(meta::marker, "A")},
                             {960, note_on(1, 60, 90)},
                             {1440, note_off(1, 60)}};
    file.tracks[0].end = 1920;
    file.tracks[1].events = {{0, SystemExclusive{{0xF0, 0x43, 0xF7}}},
                             {700, pitch_bend(2, 100)},
                             {7000, program_change(2, 32)},
                             {7000, note_on(2, 40, 1)}};
    file.tracks[1].end = 8000;
    const auto bytes = write_smf(file);
    for (std::size_t size = 0; size < bytes.size(); ++size) {
        const std::span<const std::uint8_t> part(bytes.data(), size);
        ReadFile read;
        try {
            read = read_smf(part);
        } catch (const compline::text::BadInput& error) {
            // Nothing to keep: the first track's events begin at byte 22.
            if (size >= 22 || error.offset() > size) FAIL(error.what());
            continue;
        }
        if (!read.cut_at || *read.cut_at > size || size < 22) FAIL("cut after byte " << size);
        if (read.file.tracks.empty() || read.file.tracks.size() > 2) FAIL("tracks at " << size);
        for (std::size_t i = 0; i < read.file.tracks.size(); ++i) {
            const Track& track = read.file.tracks[i];
            if (!is_prefix(track.events, file.tracks[i].events)) FAIL("events at " << size);
            if (!track.events.empty() && track.end < track.events.back().tick) FAIL("end");
        }
        // Cut just there nothing is lost, so that a second reading gives the same.
        const auto again = read_smf(part.first(*read.cut_at));
        if (!(again.file == read.file) || again.cut_at != read.cut_at) FAIL("again at " << size);
    }
}

TEST_CASE("every prefix of any file gives an error or whole events, and never a crash") {
    for (std::uint32_t seed = 1000; seed < 1020; ++seed) {
        const File file = random_file(seed);
        const auto bytes = write_smf(file);
        for (std::size_t size = 0; size < bytes.size(); ++size) {
            try {
                const auto read = read_smf(std::span(bytes.data(), size));
                if (!read.cut_at) FAIL("not noticed: seed " << seed << ", byte " << size);
                const std::size_t last = read.file.tracks.size() - 1;
                if (!is_prefix(read.file.tracks[last].events, file.tracks[last].events)) {
                    FAIL("events: seed " << seed << ", byte " << size);
                }
            } catch (const text::BadInput&) {
                if (size >= 22) FAIL("seed " << seed << ", byte " << size);
            }
        }
    }
}

TEST_CASE("a recorder that never filled in the length of its track is read all the same") {
    const Bytes note = hex("00 90 3C 40");
    const Bytes end = hex("10 FF 2F 00");
    for (const std::uint32_t length : {0U, 0xFFFFFFFFU}) {
        SECTION("stopped, length " + std::to_string(length)) {
            const auto read = read_smf(header(1, 1, 96) + track(note + hex("10 80 3C"), length));
            CHECK(read.cut_at == std::size_t{26});
            CHECK(read.file.tracks.at(0).events.size() == 1);
        }
        SECTION("ended, length " + std::to_string(length)) {
            const auto read =
                read_smf(header(1, 2, 96) + track(note + end, length) + track(note + end));
            CHECK_FALSE(read.cut_at);
            REQUIRE(read.file.tracks.size() == 2);
            CHECK(read.file.tracks[0] == read.file.tracks[1]);
            CHECK(read.file.tracks[0].end == 16);
        }
    }
}

TEST_CASE(
    "a file without its last end-of-track, or with fewer tracks than it says, was cut short") {
    const Bytes note = hex("00 90 3C 40");
    const Bytes whole = track(note + hex("00 FF 2F 00"));
    const auto cut = [](const Bytes& bytes) { return read_smf(bytes).cut_at; };
    CHECK(cut(header(1, 1, 96) + track(note)) == std::size_t{26});
    CHECK(cut(header(1, 2, 96) + whole) == std::size_t{30});
    CHECK(cut(header(1, 2, 96) + whole + ascii("MTr")) == std::size_t{30});
    CHECK(cut(header(1, 2, 96) + whole + track({})) == std::size_t{38});
    CHECK(cut(header(1, 2, 96) + whole + ascii("XFIH") + hex("00000009 00")) == std::size_t{30});
    // All its events are there, but the length says that there should be more.
    CHECK(cut(header(1, 1, 96) + track(note + hex("00 FF 2F 00"), 50)) == std::size_t{30});
}

TEST_CASE("numbers in a small file do not make a large one") {
    // 65,535 tracks, a track of 4 GiB, a text of 256 MiB: none of them is there.
    const auto read =
        read_smf(header(1, 65535, 96) + track(hex("00 FF 01 FF FF FF 7F 41"), 0xFFFFFFFE));
    CHECK(read.cut_at == std::size_t{22});
    CHECK(read.file.tracks.size() == 1);
    CHECK(read.file.tracks.capacity() < 100);
    CHECK(read.file.tracks[0].events.empty());
}

TEST_CASE("a file that has to be whole is read, or refused with its name and the byte") {
    const TemporaryFolder folder;
    const auto path = folder.file("take.mid");
    const auto bytes = example_format_0();
    files::save_bytes(path, bytes, files::Existing::replace);
    CHECK(load_smf(path) == read_smf(bytes).file);
    const auto refusal = [&](std::size_t kept) {
        files::save_bytes(path, std::span(bytes).first(kept), files::Existing::replace);
        try {
            (void)load_smf(path);
        } catch (const text::BadInput& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    CHECK(refusal(bytes.size() - 4).starts_with(path.string() + ": byte "));
    CHECK(refusal(bytes.size() - 4).ends_with("the file ends in the middle of a track"));
    CHECK(refusal(3).starts_with(path.string() + ": byte 3: found "));
    CHECK_THROWS_AS(load_smf(folder.file("none.mid")), text::BadInput);
    files::save_bytes(path, bytes, files::Existing::replace);
    CHECK_THROWS_AS(load_smf(path, 10), text::BadInput);
}
