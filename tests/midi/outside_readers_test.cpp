// Our files in the eyes of others: midicsv (John Walker) and mido (Ole Martin Bjørndalen), both
// as Debian packages them, have to find the notes, tempos and markers that were written.

#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <sstream>
#include <string>
#include <vector>

using namespace compline;
using namespace compline::midi;
using namespace compline::tests;

namespace {

File a_waltz() {
    File file;
    file.division = 15360;
    file.tracks.resize(2);
    Track& conductor = file.tracks[0];
    conductor.add(0, text_event(meta::track_name, "compline"));
    conductor.add(0, tempo_event(time::Bpm(150)));
    conductor.add(0, time_signature_event(3, 4));
    conductor.add(46080, text_event(meta::marker, "compline:start"));
    conductor.add(46080, text_event(meta::marker, "Bbmaj7"));
    conductor.add(92160, tempo_event(time::Bpm(132)));
    conductor.add(92160, text_event(meta::text, "{\"schema\": 1}"));
    Track& band = file.tracks[1];
    band.add(46080, note_on(10, 51, 90));
    band.add(46080, note_on(2, 34, 100));
    band.add(46080, pitch_bend(2, -682));
    band.add(50000, note_off(10, 51));
    band.add(61437, note_on(2, 34, 0));
    band.add(61440, SystemExclusive{{0xF0, 0x43, 0x12, 0xF7}});
    // Far enough for a time of four bytes.
    band.add(3'000'000, note_on(16, 127, 127));
    band.add(3'000'001, note_off(16, 127, 64));
    band.end = 3'072'000;
    conductor.end = band.end;
    return file;
}

std::vector<std::string> lines_of(const std::string& output) {
    std::vector<std::string> lines;
    std::istringstream in(output);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

std::string save_waltz(const TemporaryFolder& folder) {
    const auto path = folder.file("our waltz.mid");
    files::save_bytes(path, write_smf(a_waltz()), files::Existing::keep);
    return shell_quote(path.string());
}

}  // namespace

TEST_CASE("midicsv finds the notes, tempos and markers of our files") {
    if (!outside_tool("midicsv")) return;
    const TemporaryFolder folder;
    const auto [status, output] = run("midicsv " + save_waltz(folder));
    CHECK(status == 0);
    const std::vector<std::string> expected{
        "0, 0, Header, 1, 2, 15360",
        "1, 0, Start_track",
        "1, 0, Title_t, \"compline\"",
        "1, 0, Tempo, 400000",  // 60,000,000 / 150
        "1, 0, Time_signature, 3, 2, 24, 8",
        "1, 46080, Marker_t, \"compline:start\"",
        "1, 46080, Marker_t, \"Bbmaj7\"",
        "1, 92160, Tempo, 454545",  // 60,000,000 / 132 to the nearest
        "1, 92160, Text_t, \"{\"\"schema\"\": 1}\"",
        "1, 3072000, End_track",
        "2, 0, Start_track",
        "2, 46080, Note_on_c, 9, 51, 90",  // midicsv counts channels from 0
        "2, 46080, Note_on_c, 1, 34, 100",
        "2, 46080, Pitch_bend_c, 1, 7510",  // and bends from -8192
        "2, 50000, Note_off_c, 9, 51, 0",
        "2, 61437, Note_on_c, 1, 34, 0",
        "2, 61440, System_exclusive, 3, 67, 18, 247",
        "2, 3000000, Note_on_c, 15, 127, 127",
        "2, 3000001, Note_off_c, 15, 127, 64",
        "2, 3072000, End_track",
        "0, 0, End_of_file",
    };
    CHECK(lines_of(output) == expected);
}

TEST_CASE("mido finds the notes, tempos and markers of our files, and the same length in seconds") {
    if (!outside_python_module("mido")) return;
    const TemporaryFolder folder;
    const auto script = std::filesystem::path(COMPLINE_SOURCE_DIR) / "tests/midi/list_with_mido.py";
    const auto [status, output] =
        run("/usr/bin/python3 " + shell_quote(script.string()) + " " + save_waltz(folder));
    CHECK(status == 0);
    const std::vector<std::string> expected{
        fmt::format("format 1 division 15360 seconds {:.6f}", flatten(a_waltz()).length.count()),
        "1 0 track_name compline",
        "1 0 tempo 400000",
        "1 0 time_signature 3/4",
        "1 46080 marker compline:start",
        "1 46080 marker Bbmaj7",
        "1 92160 tempo 454545",
        "1 92160 text {\"schema\": 1}",
        "1 3072000 end",
        "2 46080 note_on 10 51 90",
        "2 46080 note_on 2 34 100",
        "2 46080 bend 2 -682",
        "2 50000 note_off 10 51 0",
        "2 61437 note_on 2 34 0",
        "2 61440 sysex 67 18",
        "2 3000000 note_on 16 127 127",
        "2 3000001 note_off 16 127 64",
        "2 3072000 end",
    };
    CHECK(lines_of(output) == expected);
}

TEST_CASE("what midicsv's partner writes, with running status, we read as midicsv lists it") {
    if (!outside_tool("midicsv") || !outside_tool("csvmidi")) return;
    const TemporaryFolder folder;
    const std::string ours = save_waltz(folder);
    const auto theirs = folder.file("theirs.mid");
    const auto made = run("midicsv " + ours + " | csvmidi -x - " + shell_quote(theirs.string()));
    INFO(made.output);
    REQUIRE(made.status == 0);
    CHECK(read_smf(files::load_bytes(theirs)).file == a_waltz());
}
