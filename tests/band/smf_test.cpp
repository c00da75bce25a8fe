// The band's part as others read it: `render` writes the blues as MIDI; midicsv (John Walker) and
// mido (Ole Martin Bjørndalen), as Debian packages them, have to find every stroke and note where
// it belongs.

#include "support/booking.hpp"
#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/temporary_folder.hpp"

#include <compline/band/band.hpp>
#include <compline/chart/form.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>

using namespace compline;
using namespace compline::tests;

namespace {

constexpr std::int64_t quarter = 15360;
constexpr std::int64_t bar = 4 * quarter;
constexpr std::int64_t start = 2 * bar;  // after two bars of count-in
constexpr int choruses = 2;

const std::string blues =
    std::string(COMPLINE_SOURCE_DIR) + "/charts/blue-kettle-on-the-back-stairs.yaml";

/// Where a skip falls in its beat at 132 bpm: short note = 48.1 ms + 0.1735 of the beat (least
/// squares over 34 recordings of the Jazz Trio Database), worked out here anew.
std::int64_t skip_tick() {
    const double beat = 60.0 / 132;
    return std::llround((1 - (0.0481 + 0.1735 * beat) / beat) * static_cast<double>(quarter));
}

/// A written position, 960 to the quarter, as ticks of the file. Only whole beats and off-beats
/// are struck; what lies between keeps its proportion.
std::int64_t file_tick(time::Ticks at) {
    const std::int64_t beat =
        static_cast<std::int64_t>(std::floor(static_cast<double>(at.count()) / 960));
    const double inside = static_cast<double>(at.count() - beat * 960) / 960;
    const auto skip = static_cast<double>(skip_tick());
    const double ticks =
        inside < 0.5 ? inside * 2 * skip : skip + (inside - 0.5) * 2 * (quarter - skip);
    return start + beat * quarter + std::llround(ticks);
}

/// General MIDI level 1 percussion: ride cymbal 1, crash cymbal 1, pedal hi-hat, bass drum 1,
/// claves.
int gm_key(band::Drum drum) {
    switch (drum) {
        case band::Drum::ride:
            return 51;
        case band::Drum::crash:
            return 49;
        case band::Drum::hihat_foot:
            return 44;
        case band::Drum::kick:
            return 36;
        case band::Drum::stick:
            return 75;
        default:
            FAIL("the blues has no other strokes");
    }
    return 0;
}

band::Part the_part() {
    const auto form = chart::unroll(chart::load_chart(blues));
    auto booking = tests::Booking::of(form.whole(), choruses);
    booking.asked.way.held_ending = true;  // as a tune ends
    return booking.play(form);
}

/// A note-on as both programs are made to print it: tick, channel from 1, key, velocity.
std::string note_line(std::int64_t tick, int channel, int key, int velocity) {
    return fmt::format("{} {} {} {}", tick, channel, key, velocity);
}

std::multiset<std::string> expected_notes() {
    std::multiset<std::string> notes;
    const auto part = the_part();
    for (const auto& stroke : part.strokes) {
        notes.insert(note_line(file_tick(stroke.at), 10, gm_key(stroke.drum), stroke.velocity));
    }
    for (const auto& note : part.notes) {
        notes.insert(note_line(file_tick(note.at), 2, note.note.number(), note.velocity));
    }
    return notes;
}

/// Markers in both choruses: a section where it begins, every chord where it starts.
std::vector<std::string> expected_markers() {
    const std::vector<std::pair<double, std::string>> chorus{
        {0, "F7"},    {1, "Bb7"},   {2, "F7"},    {3, "Cm7"},    {3.5, "F7"}, {4, "Bb7"},
        {5, "Bdim7"}, {6, "F7"},    {7, "Am7b5"}, {7.5, "D7b9"}, {8, "Gm7"},  {9, "C7"},
        {10, "F7"},   {10.5, "D7"}, {11, "Gm7"},  {11.5, "C7"}};
    std::vector<std::string> markers{fmt::format("{} compline:start", start)};
    for (int n = 0; n < choruses; ++n) {
        markers.push_back(fmt::format("{} section A", start + n * 12 * bar));
        for (const auto& [at, chord] : chorus) {
            const double bars = at + n * 12;
            markers.push_back(
                fmt::format("{} {}", start + std::llround(bars * static_cast<double>(bar)), chord));
        }
    }
    std::sort(markers.begin(), markers.end());
    return markers;
}

std::string render_blues(const TemporaryFolder& folder) {
    const auto out = folder.file("blues.mid");
    const auto made = run(shell_quote(COMPLINE_PROGRAM) + " render " + shell_quote(blues) + " " +
                          shell_quote(out.string()) + fmt::format(" --times {}", choruses));
    INFO(made.output);
    REQUIRE(made.status == 0);
    return shell_quote(out.string());
}

std::vector<std::string> lines_of(const std::string& output) {
    std::vector<std::string> lines;
    std::istringstream in(output);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

std::vector<std::string> fields_of(const std::string& line, const std::string& separator) {
    std::vector<std::string> fields;
    std::size_t at = 0;
    while (true) {
        const auto end = line.find(separator, at);
        fields.push_back(line.substr(at, end - at));
        if (end == std::string::npos) return fields;
        at = end + separator.size();
    }
}

bool has_line(const std::vector<std::string>& lines, const std::string& line) {
    return std::find(lines.begin(), lines.end(), line) != lines.end();
}

}  // namespace

TEST_CASE("midicsv finds tempo, meter, markers, strokes and notes of the rendered blues",
          "[band][app]") {
    if (!outside_tool("midicsv")) return;
    const TemporaryFolder folder;
    const auto [status, output] = run("midicsv " + render_blues(folder));
    REQUIRE(status == 0);
    const auto lines = lines_of(output);
    CHECK(lines.front() == "0, 0, Header, 1, 3, 15360");
    CHECK(has_line(lines, "1, 0, Title_t, \"Blue Kettle on the Back Stairs\""));
    CHECK(has_line(lines, "1, 0, Tempo, 454545"));  // 60,000,000 / 132
    CHECK(has_line(lines, "1, 0, Time_signature, 4, 2, 24, 8"));
    // General MIDI's acoustic bass, 33 counted from 1, on the channel that midicsv calls 1.
    CHECK(has_line(lines, "3, 0, Program_c, 1, 32"));
    std::multiset<std::string> notes;
    std::vector<std::string> markers;
    for (const auto& line : lines) {
        const auto fields = fields_of(line, ", ");
        if (fields.size() < 4) continue;
        if (fields[2] == "Marker_t") {
            markers.push_back(fields[1] + " " + fields[3].substr(1, fields[3].size() - 2));
        }
        if (fields[2] != "Note_on_c" || fields[5] == "0") continue;
        notes.insert(note_line(std::stoll(fields[1]), std::stoi(fields[3]) + 1,
                               std::stoi(fields[4]), std::stoi(fields[5])));
    }
    std::sort(markers.begin(), markers.end());
    CHECK(markers == expected_markers());
    CHECK(notes == expected_notes());
}

TEST_CASE("mido finds the same, and the length in seconds", "[band][app]") {
    if (!outside_python_module("mido")) return;
    const TemporaryFolder folder;
    const auto script = std::filesystem::path(COMPLINE_SOURCE_DIR) / "tests/midi/list_with_mido.py";
    const auto [status, output] =
        run("/usr/bin/python3 " + shell_quote(script.string()) + " " + render_blues(folder));
    REQUIRE(status == 0);
    const auto lines = lines_of(output);
    // 28 bars of four beats, the last two a chord that rings, a beat being 454,545 microseconds in
    // the file.
    CHECK(lines.front() ==
          fmt::format("format 1 division 15360 seconds {:.6f}", 28 * 4 * 0.454545));
    CHECK(has_line(lines, "1 0 tempo 454545"));
    CHECK(has_line(lines, "1 0 time_signature 4/4"));
    CHECK(has_line(lines, "3 0 other program_change channel=1 program=32 time=0"));
    std::multiset<std::string> notes;
    std::vector<std::string> markers;
    std::multiset<std::pair<int, int>> sounding;  // channel and key
    for (const auto& line : lines) {
        const auto fields = fields_of(line, " ");
        if (fields[2] == "marker") {
            markers.push_back(fields[1] + line.substr(line.find(" marker ") + 7));
        }
        if (fields[2] != "note_on" && fields[2] != "note_off") continue;
        const std::pair<int, int> key{std::stoi(fields[3]), std::stoi(fields[4])};
        if (fields[2] == "note_off") {
            REQUIRE(sounding.erase(key) == 1);  // each note ended once, before it starts again
            continue;
        }
        sounding.insert(key);
        notes.insert(note_line(std::stoll(fields[1]), key.first, key.second, std::stoi(fields[5])));
    }
    std::sort(markers.begin(), markers.end());
    CHECK(markers == expected_markers());
    CHECK(notes == expected_notes());
    CHECK(sounding.empty());
}

TEST_CASE("the rendered blues has its strokes where a drummer would", "[band]") {
    const auto part = the_part();
    const auto on = [&](std::int64_t ticks_of_960, band::Drum drum) {
        return std::count_if(part.strokes.begin(), part.strokes.end(), [&](const auto& stroke) {
            return stroke.at == time::Ticks(ticks_of_960) && stroke.drum == drum;
        });
    };
    // Bar 1: the skip after 2 is written half-way, and swung 11,070 ticks into its beat in the
    // file.
    CHECK(on(960 + 480, band::Drum::ride) == 1);
    CHECK(skip_tick() == 11070);
    CHECK(file_tick(time::Ticks(960 + 480)) == start + quarter + 11070);
    // The count-in: 1 and 3, then all four.
    for (const int beat : {-8, -6, -4, -3, -2, -1}) CHECK(on(beat * 960, band::Drum::stick) == 1);
    CHECK(std::count_if(part.strokes.begin(), part.strokes.end(),
                        [](const auto& stroke) { return stroke.drum == band::Drum::stick; }) == 6);
    // Twelve bars twice: 6 ride strokes, 2 of the hi-hat and 4 of the kick a bar; then the end.
    CHECK(part.strokes.size() == 6 + 24 * (6 + 2 + 4) + 2);
    CHECK(on(24 * 3840, band::Drum::crash) == 1);
    CHECK(on(24 * 3840, band::Drum::kick) == 1);
    // A bass note on each beat and on the last 1, and a few short ones between them.
    const auto on_beats = std::count_if(part.notes.begin(), part.notes.end(), [](const auto& note) {
        return note.at % time::quarter_note == time::Ticks(0);
    });
    CHECK(on_beats == 24 * 4 + 1);
    CHECK(part.notes.size() > 24 * 4 + 1);
    CHECK(part.notes.size() < 24 * 4 + 12);
}
