// tools/hexaphonic_to_midi: notes of a six-way pickup in, a MIDI guitar's file out.

#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/outside_data.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/midi/smf.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

using namespace compline;
using namespace compline::midi;
using namespace compline::tests;

namespace {

struct Note {
    int channel, number, velocity;
    double on, off;
};

/// The notes by channel, in order; a file in which a note hangs or ends twice fails the test.
std::map<int, std::vector<Note>> notes_of(const std::filesystem::path& path) {
    std::map<int, std::vector<Note>> notes;
    std::map<int, bool> sounding;
    for (const auto& [at, message] : flatten(read_smf(files::load_bytes(path)).file).messages) {
        auto& mine = notes[message.channel()];
        bool& on = sounding[message.channel()];
        if (message.starts_note()) {
            if (on) FAIL("a second note on string " << message.channel());
            mine.push_back({message.channel(), message.data1, message.data2, at.count(), -1});
        } else {
            if (!on || mine.back().number != message.data1) FAIL("a stray note-off");
            mine.back().off = at.count();
        }
        on = message.starts_note();
    }
    for (const auto& [string, on] : sounding) {
        if (on) FAIL("a note hangs on string " << string);
    }
    return notes;
}

CommandResult convert(const std::filesystem::path& in, const std::filesystem::path& out,
                      const std::string& options = "") {
    const auto program = std::filesystem::path(COMPLINE_SOURCE_DIR) / "tools/hexaphonic_to_midi";
    // The system's interpreter first: those of version managers start slowly.
    return run("PATH=/usr/bin:$PATH " + shell_quote(program.string()) + " " + options + " " +
               shell_quote(in.string()) + " " + shell_quote(out.string()));
}

/// Converts notes written as JSON: [string, onset, duration, pitch] each.
CommandResult convert_notes(const TemporaryFolder& folder, const std::string& json) {
    files::save_text(folder.file("in.json"), json, files::Existing::replace);
    return convert(folder.file("in.json"), folder.file("out.mid"));
}

std::string note(int string, double onset, double duration, double pitch) {
    const nlohmann::json json{
        {"string", string}, {"onset_s", onset}, {"duration_s", duration}, {"pitch", pitch}};
    return json.dump();
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

constexpr double a_tick = 1.0 / 30720;  // 15,360 ticks a quarter at 120 bpm

}  // namespace

TEST_CASE("a real take becomes a MIDI guitar's file, note for note, to within a tick") {
    const auto take = outside_data("hexaphonic-takes/03_BN3-119-G_comp.json");
    if (!take || !outside_tool("python3")) return;
    const TemporaryFolder folder;
    const auto converted = convert(*take, folder.file("take.mid"));
    INFO(converted.output);
    REQUIRE(converted.status == 0);

    std::map<int, std::vector<nlohmann::json>> played;
    const auto json = nlohmann::json::parse(files::load_text(*take));
    for (const auto& n : json.at("notes")) played[n.at("string").get<int>()].push_back(n);
    const auto notes = notes_of(folder.file("take.mid"));
    REQUIRE(notes.size() == played.size());
    std::size_t count = 0;
    for (auto& [string, expected] : played) {
        const auto& found = notes.at(string);
        REQUIRE(found.size() == expected.size());
        count += found.size();
        std::sort(expected.begin(), expected.end(), [](const auto& a, const auto& b) {
            return a.at("onset_s").template get<double>() < b.at("onset_s").template get<double>();
        });
        for (std::size_t i = 0; i < found.size(); ++i) {
            const double onset = expected[i].at("onset_s");
            const double end = onset + expected[i].at("duration_s").get<double>();
            const bool same =
                found[i].number == std::lround(expected[i].at("pitch").get<double>()) &&
                std::fabs(found[i].on - onset) <= a_tick &&
                std::fabs(found[i].off - end) <= a_tick && found[i].velocity == 80;
            if (!same) FAIL("string " << string << ", note at " << onset << " s");
        }
    }
    CHECK(count == 199);  // notes in the data
}

TEST_CASE("strings become channels, pitches the nearest notes, at times to within half a tick") {
    if (!outside_tool("python3")) return;
    const TemporaryFolder folder;
    const auto converted = convert_notes(
        folder, "{\"source\": \"a test\", \"notes\": [" + note(6, 1.5, 0.25, 40.49) + "," +
                    note(1, 0.1, 0.2, 64.5) + "," + note(3, 0.0, 0.000001, 55) + "]}");
    INFO(converted.output);
    REQUIRE(converted.status == 0);
    const auto file = read_smf(files::load_bytes(folder.file("out.mid")));
    CHECK_FALSE(file.cut_at);
    CHECK(file.file.format == 1);
    CHECK(file.file.division == 15360);
    CHECK(file.file.frames_per_second == 0);
    CHECK(std::get<MetaEvent>(file.file.tracks.at(0).events.at(1).event) ==
          tempo_event(time::Bpm(120)));
    const auto notes = notes_of(folder.file("out.mid"));
    REQUIRE(notes.size() == 3);
    CHECK(notes.at(6).at(0).number == 40);
    CHECK(notes.at(6).at(0).on == 1.5);
    CHECK(notes.at(6).at(0).off == 1.75);
    CHECK(notes.at(1).at(0).number == 65);
    CHECK(notes.at(1).at(0).on == Approx(0.1).margin(a_tick / 2));
    CHECK(notes.at(3).at(0).off == Approx(a_tick));  // no note is shorter than a tick
}

TEST_CASE("a new note on a string ends the one before, and the end comes first") {
    if (!outside_tool("python3")) return;
    const TemporaryFolder folder;
    // Out of order, the first far too long; the third starts where the second ends.
    const auto converted =
        convert_notes(folder, "{\"notes\": [" + note(2, 1, 0.5, 62) + "," + note(2, 0.5, 9, 62) +
                                  "," + note(2, 1.5, 0.5, 62) + "," + note(3, 0.75, 3, 57) + "]}");
    INFO(converted.output);
    REQUIRE(converted.status == 0);
    const auto notes = notes_of(folder.file("out.mid"));
    REQUIRE(notes.at(2).size() == 3);
    CHECK(notes.at(2).at(0).off == 1.0);
    CHECK(notes.at(2).at(1).off == 1.5);
    CHECK(notes.at(2).at(2).off == 2.0);
    CHECK(notes.at(3).at(0).off == 3.75);
}

TEST_CASE("what is no take of a six-way pickup is refused, status 2, and nothing is written") {
    if (!outside_tool("python3")) return;
    const TemporaryFolder folder;
    const auto one = [](const std::string& text) { return "{\"notes\": [" + text + "]}"; };
    const std::vector<std::pair<std::string, std::string>> table{
        {"", "is not JSON"},
        {"string: 1", "is not JSON"},
        {"[1, 2]", "expected an object with a list \"notes\""},
        {"{\"notes\": 7}", "expected an object with a list \"notes\""},
        {"{\"notes\": []}", "expected at least one note"},
        {one("7"), "note 1 is not an object"},
        {one(note(1, 0, 1, 60) + "," + note(7, 1, 1, 60)), "note 2: string is 7, expected 1 to 6"},
        {one(note(0, 0, 1, 60)), "note 1: string is 0, expected 1 to 6"},
        {one(note(1, -0.5, 1, 60)), "note 1: onset_s is -0.5, expected 0 to"},
        {one(note(1, 0, 1, 128)), "note 1: pitch is 128.0, expected 0 to 127"},
        {one(note(1, 5000, 5000, 60)), "note 1: ends at 10000.0 s, expected 8000 at most"},
        {one(note(1, 1e300, 1, 60)), "note 1: onset_s is 1e+300"},
        {one(R"({"string": 1.5, "onset_s": 0, "duration_s": 1, "pitch": 60})"),
         "string is 1.5, expected a whole number"},
        {one(R"({"string": 1, "onset_s": "0", "duration_s": 1, "pitch": 60})"),
         "note 1: onset_s is \"0\", expected a number"},
        {one(R"({"string": 1, "onset_s": NaN, "duration_s": 1, "pitch": 60})"), "onset_s is nan"},
        {one(R"({"string": 1, "onset_s": 0, "pitch": 60})"), "note 1: duration_s is missing"},
        {one(note(4, 1, 1, 50) + "," + note(4, 1, 2, 52)),
         "string 4: two notes start at 1.000000 s"},
    };
    for (const auto& [json, words] : table) {
        const auto converted = convert_notes(folder, json);
        INFO(json << " -> " << converted.output);
        CHECK(converted.status == 2);
        CHECK(contains(converted.output, folder.file("in.json").string() + ": "));
        CHECK(contains(converted.output, words));
        CHECK_FALSE(contains(converted.output, "Traceback"));
        CHECK_FALSE(std::filesystem::exists(folder.file("out.mid")));
    }
    CHECK(convert(folder.file("gone.json"), folder.file("out.mid")).status == 2);
    CHECK(convert(folder.path(), folder.file("out.mid")).status == 2);
}

TEST_CASE("the converter overwrites nothing unasked and leaves nothing half-written") {
    if (!outside_tool("python3")) return;
    const TemporaryFolder folder;
    const auto in = folder.file("in.json");
    const auto out = folder.file("out.mid");
    files::save_text(in, "{\"notes\": [" + note(1, 0, 1, 60) + "]}", files::Existing::keep);
    files::save_text(out, "mine", files::Existing::keep);
    const auto refused = convert(in, out);
    CHECK(refused.status == 2);
    CHECK(contains(refused.output, "is there already"));
    CHECK(files::load_text(out) == "mine");
    CHECK(convert(in, out, "--force").status == 0);
    CHECK(notes_of(out).size() == 1);
    const auto nowhere = convert(in, folder.file("no folder") / "out.mid");
    CHECK(nowhere.status == 1);
    CHECK(contains(nowhere.output, "cannot be written: No such file or directory"));
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 2);
}
