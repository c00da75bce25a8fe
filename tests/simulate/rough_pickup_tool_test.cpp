#include "support/catch.hpp"
#include "support/command.hpp"
#include "support/forms.hpp"
#include "support/temporary_folder.hpp"

#include <compline/files/file_io.hpp>
#include <compline/listen/listener.hpp>
#include <compline/practice/take.hpp>

#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>

// The program of tools/rough_pickup, run as it is.

using namespace compline;
using namespace compline::tests;
using time::Seconds;

namespace {

roadmap::RoadMap two_bars() {
    const auto form = make_form(time::Meter(4), time::Bpm(120), {"G7", "G7"});
    auto asked = roadmap::Asked::of(form.whole(), 1);
    asked.count_in_bars = 1;
    return {form, asked};
}

/// Two bars of a shell on strings 6, 4 and 3, after a count-in of two seconds.
practice::Take shells() {
    practice::Take take;
    for (int n = 0; n < 16; ++n) {
        const Seconds on = Seconds(0.25) * n;
        const Seconds off = on + Seconds(0.2);
        for (const auto& [string, note] : {std::pair{6, 43}, {4, 53}, {3, 59}}) {
            take.messages.push_back({on, midi::note_on(string, note, 80)});
        }
        for (const auto& [string, note] : {std::pair{6, 43}, {4, 53}, {3, 59}}) {
            take.messages.push_back({off, midi::note_off(string, note)});
        }
    }
    take.info = practice::TakeInfo{};
    take.info->asked = two_bars().settled();
    take.info->chart_hash = "a hash";
    take.end = Seconds(4.5);
    return take;
}

void save(const std::filesystem::path& path, const practice::Take& take) {
    const auto file = to_file(take, two_bars());
    files::save_bytes(path, midi::write_smf(file), files::Existing::keep);
}

practice::Take load(const std::filesystem::path& path) {
    return practice::read_take(midi::read_smf(files::load_bytes(path)).file);
}

CommandResult roughen(const std::string& options, const std::filesystem::path& in,
                      const std::filesystem::path& out) {
    return run(shell_quote(COMPLINE_ROUGH_PICKUP) + " " + options + " " + shell_quote(in.string()) +
               " " + shell_quote(out.string()));
}

bool says(const CommandResult& result, const std::string& words) {
    return result.output.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("a take made rough keeps its start, its text and its length") {
    const TemporaryFolder folder;
    const auto in = folder.file("clean.mid");
    const auto out = folder.file("rough.mid");
    save(in, shells());
    const auto done = roughen("--double-triggers 1 --seed 3", in, out);
    INFO(done.output);
    REQUIRE(done.status == 0);
    CHECK(says(done, "48 notes"));
    CHECK(says(done, "double trigger 48"));
    const auto rough = load(out);
    CHECK(rough.marked);
    REQUIRE(rough.info.has_value());
    CHECK(rough.info->chart_hash == "a hash");
    CHECK(rough.end.count() == Approx(4.5).margin(0.0001));
    CHECK(rough.messages.size() == 2 * 96);
    CHECK(rough.messages.front().at.count() == Approx(0).margin(0.0001));
}

TEST_CASE("a take that nothing is done to comes out note for note") {
    const TemporaryFolder folder;
    const auto in = folder.file("clean.mid");
    const auto out = folder.file("rough.mid");
    const auto clean = shells();
    save(in, clean);
    REQUIRE(roughen("", in, out).status == 0);
    const auto rough = load(out);
    REQUIRE(rough.messages.size() == clean.messages.size());
    for (std::size_t i = 0; i < clean.messages.size(); ++i) {
        CHECK(rough.messages[i].message == clean.messages[i].message);
        CHECK(rough.messages[i].at.count() == Approx(clean.messages[i].at.count()).margin(5e-5));
    }
}

TEST_CASE("the truth beside a rough take says what was played and what went wrong") {
    const TemporaryFolder folder;
    const auto in = folder.file("clean.mid");
    const auto truth = folder.file("truth.json");
    save(in, shells());
    const auto done = roughen("--wear moderate --ghosts 0.5 --truth " + shell_quote(truth.string()),
                              in, folder.file("rough.mid"));
    INFO(done.output);
    REQUIRE(done.status == 0);
    const auto json = nlohmann::json::parse(files::load_text(truth));
    CHECK(json["schema"] == "compline.truth/1");
    REQUIRE(json["notes"].size() == 48);
    CHECK(json["notes"][1]["string"] == 4);
    CHECK(json["notes"][1]["fret"] == 3);
    CHECK(json["notes"][1]["on_s"] == 0.0);
    CHECK(json["notes"][1]["dropped"] == false);
    int ghosts = 0;
    for (const auto& fault : json["faults"]) ghosts += fault["fault"] == "ghost" ? 1 : 0;
    CHECK(ghosts > 12);
}

TEST_CASE("the same seed gives the same file, byte for byte, and files are not replaced unasked") {
    const TemporaryFolder folder;
    const auto in = folder.file("clean.mid");
    const auto out = folder.file("rough.mid");
    save(in, shells());
    REQUIRE(roughen("--wear high --seed 5", in, out).status == 0);
    const auto first = files::load_bytes(out);
    const auto again = roughen("--wear high --seed 6", in, out);
    CHECK(again.status == 2);
    CHECK(says(again, "is there already; --force replaces it"));
    CHECK(files::load_bytes(out) == first);
    REQUIRE(roughen("--force --wear high --seed 6", in, out).status == 0);
    CHECK(files::load_bytes(out) != first);
    REQUIRE(roughen("--force --wear high --seed 5", in, out).status == 0);
    CHECK(files::load_bytes(out) == first);
}

TEST_CASE("a rough pickup is not made of bad words, bad numbers, or what is no clean take") {
    const TemporaryFolder folder;
    const auto in = folder.file("clean.mid");
    const auto out = folder.file("rough.mid");
    save(in, shells());
    const auto refused = [&](const std::string& options, const std::filesystem::path& from,
                             const std::string& words) {
        const auto result = roughen(options, from, out);
        INFO(options << ": " << result.output);
        CHECK(result.status == 2);
        CHECK(says(result, words));
        CHECK_FALSE(std::filesystem::exists(out));
    };
    refused("--ghosts 1.5", in, "found '1.5', expected 0 to 1");
    refused("--ghosts nan", in, "found 'nan', expected 0 to 1");
    refused("--seed -1", in, "found '-1', expected a whole number");
    refused("--wear worn", in, "expected one of none, low, moderate, high");
    refused("--transport radio", in, "expected one of exact, usb, din");
    refused("--first-channel 12", in, "first channel: found 12, expected 1 to 11");
    refused("--truth " + shell_quote(out.string()), in, "cannot be one file");
    refused("", folder.file("absent.mid"), "absent.mid");
    const auto text = folder.file("text.mid");
    files::save_text(text, "no MIDI", files::Existing::keep);
    refused("", text, "text.mid");
    auto bent = shells();
    bent.messages.insert(bent.messages.begin(), {Seconds(0), midi::pitch_bend(3, 100)});
    const auto with_bend = folder.file("bent.mid");
    save(with_bend, bent);
    refused("", with_bend, "at 0.000 s: found a message of status 0xE2, expected a clean take");
    practice::Take silent;
    silent.end = Seconds(1);
    const auto empty = folder.file("empty.mid");
    save(empty, silent);
    refused("", empty, "there is nothing in it to play");
}
