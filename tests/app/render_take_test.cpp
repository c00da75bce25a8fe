// compline render and score of takes: the band as it was heard, whatever tempi were decided.

#include "app/program.hpp"
#include "support/comper.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>
#include <compline/sound/wav.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <sstream>

using namespace compline;
using namespace compline::tests;
using roadmap::NewTempo;
using time::Bpm;
using time::Seconds;

namespace {

constexpr const char* chart_text =
    "title: Four Steps\nkey: C\ntempo: 140\nsections:\n  A: Dm7 | G7 | Cmaj7 | A7\n";
constexpr double tempi[] = {96,  96,  96,  96,  104, 104,
                            104, 104, 132, 132, 120, 110};  // of each bar of three times through

double lateness_ms(int bar) { return -40 + bar * 37 % 110; }

/// A shell on 1 of each bar; when that is, is summed up here.
std::vector<midi::TimedMessage> strums() {
    const guitar::Shape grips[] = {shape("x5x56x"), shape("3x34xx"), shape("x3x45x"),
                                   shape("5x56xx")};
    std::vector<midi::TimedMessage> messages;
    double line = 0;
    for (int bar = 0; bar < 12; ++bar) {
        const Seconds at(line + lateness_ms(bar) / 1000);
        const auto places = grips[bar % 4].places();
        for (const auto& place : places) {
            const int note = guitar::Fretboard::standard().note(place).number();
            messages.push_back({at, midi::note_on(place.string, note, 80)});
        }
        for (const auto& place : places) {
            const int note = guitar::Fretboard::standard().note(place).number();
            messages.push_back({at + Seconds(0.5), midi::note_off(place.string, note)});
        }
        line += 4 * 60 / tempi[bar];
    }
    return messages;
}

/// A take of three times through, faster and slower on the way.
practice::Take a_take() {
    practice::Take take;
    practice::TakeInfo info;
    const auto form = chart::unroll(chart::read_chart(chart_text, "four-steps.yaml"));
    info.chart_text = chart_text;
    info.chart_hash = chart::chart_hash(form.chart);
    info.asked = roadmap::Asked::of({1, 4}, 3);
    info.asked.tempo = Bpm(96);
    info.asked.count_in_bars = 1;
    info.decided = {{Seconds(8), {5, NewTempo{Bpm(104)}}},
                    {Seconds(17), {9, NewTempo{Bpm(132)}}},
                    {Seconds(20), {11, NewTempo{Bpm(120)}}},
                    {Seconds(22), {12, NewTempo{Bpm(110)}}}};
    info.ended = true;
    take.messages = strums();
    take.info = info;
    take.end = take.messages.back().at + Seconds(2);
    return take;
}

std::vector<std::uint8_t> bytes_of(const practice::Take& take) {
    const auto form = chart::unroll(chart::read_chart(chart_text, "four-steps.yaml"));
    return midi::write_smf(practice::to_file(take, practice::map_of(*take.info, form)));
}

std::vector<float> first_of(const std::vector<float>& all, std::size_t count) {
    return {all.begin(), all.begin() + static_cast<std::ptrdiff_t>(std::min(count, all.size()))};
}

}  // namespace

TEST_CASE("render of the demo's take is the band of its chart, as far as the take goes", "[app]") {
    const TemporaryFolder folder;
    const auto at = [&](const std::string& name) { return folder.file(name).string(); };
    REQUIRE(run_compline({"demo", "--folder", at("demo")}).status == 0);
    const auto take = at("demo") + "/take.mid";
    for (const std::string name : {"x.mid", "x.wav"}) {
        const auto again = run_compline({"render", take, at("take-" + name)});
        INFO(shown(again));
        CHECK(again.status == 0);
        CHECK(again.err.empty());
        CHECK(contains(again.out, "Blue Kettle on the Back Stairs"));
        CHECK(contains(again.out, " at 132 bpm, after 2 bars of count-in\n"));
        CHECK(
            run_compline({"render", blues(), at(name), "--times", "2", "--count-in", "2"}).status ==
            0);
    }
    CHECK(files::load_bytes(at("take-x.mid")) == files::load_bytes(at("x.mid")));
    // The take ends with the tune; a chart is rendered to its last tail.
    const auto heard = sound::read_wav(at("take-x.wav")).sound;
    const auto chart = sound::read_wav(at("x.wav")).sound;
    CHECK(heard.left.size() > 48000 * 26 * 4 * 60 / 132 - 48000);
    CHECK(heard.left.size() <= chart.left.size());
    CHECK(first_of(chart.left, heard.left.size()) == heard.left);
    CHECK(first_of(chart.right, heard.right.size()) == heard.right);
}

TEST_CASE("render of a take whose tempo changed says so, and others find all its tempi", "[app]") {
    const TemporaryFolder folder;
    const auto take = bytes_file(folder, "take.mid", bytes_of(a_take()));
    const auto out = folder.file("out.mid").string();
    const auto ran = run_compline({"render", take, out});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.out == out +
                         ": bars 1-4 of Four Steps, 3 times at 96 to 132 bpm, after 1 bar of "
                         "count-in\n");
    if (!outside_python_module("mido")) return;
    const auto script = std::filesystem::path(COMPLINE_SOURCE_DIR) / "tests/midi/list_with_mido.py";
    const auto [status, output] =
        run("/usr/bin/python3 " + shell_quote(script.string()) + " " + shell_quote(out));
    CHECK(status == 0);
    std::vector<std::string> found;
    std::istringstream in(output);
    for (std::string line; std::getline(in, line);) {
        if (contains(line, " tempo ")) found.push_back(line);
    }
    // Bars of 61,440 ticks, the first of them the count-in; microseconds a quarter note.
    const std::vector<std::string> expected{"1 0 tempo 625000", "1 307200 tempo 576923",
                                            "1 552960 tempo 454545", "1 675840 tempo 500000",
                                            "1 737280 tempo 545455"};
    CHECK(found == expected);
}

TEST_CASE("score judges a take by the tempi that were decided on the way", "[app]") {
    const TemporaryFolder folder;
    const auto take = bytes_file(folder, "take.mid", bytes_of(a_take()));
    const auto ran = run_compline({"score", take, "--json", "--against", "beat"});
    INFO(shown(ran));
    REQUIRE(ran.status == 0);
    CHECK(ran.err.empty());
    const auto json = nlohmann::json::parse(ran.out);
    const auto& changes = json["changes"];
    REQUIRE(changes.size() == 12);
    for (int bar = 0; bar < 12; ++bar) {
        const auto& change = changes[static_cast<std::size_t>(bar)];
        INFO(change.dump());
        CHECK(change["time_through"] == bar / 4 + 1);
        REQUIRE(change["lateness_ms"].is_number());
        CHECK(change["lateness_ms"].get<double>() == Approx(lateness_ms(bar)).margin(0.1));
    }
}

TEST_CASE("render of a take that was cut short goes as far as the take", "[app]") {
    const TemporaryFolder folder;
    auto begun = a_take();
    begun.info->asked.way = chart::Way::of({1, 4}, std::nullopt);
    begun.info->decided.clear();
    auto bytes = bytes_of(begun);
    bytes.resize(bytes.size() - 200);  // its end, and some notes
    const auto take = bytes_file(folder, "cut.mid", bytes);
    const auto kept = practice::read_take(midi::read_smf(bytes).file);
    REQUIRE(kept.messages.size() > 20);
    REQUIRE_FALSE(kept.info->ended);
    const auto out = folder.file("out.wav").string();
    const auto ran = run_compline({"render", take, out});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.err, "cut.mid: the take was cut short; it is read up to byte "));
    const double seconds = static_cast<double>(sound::read_wav(out).sound.left.size()) / 48000;
    CHECK(seconds == Approx(kept.end.count() + 4 * 60.0 / 96).margin(0.001));
}

TEST_CASE("render of a take takes no wishes: it says itself what was played", "[app]") {
    const TemporaryFolder folder;
    const auto take = bytes_file(folder, "take.mid", bytes_of(a_take()));
    const auto out = folder.file("out.wav");
    for (const auto& wish : std::vector<std::vector<std::string>>{{"--tempo", "120"},
                                                                  {"--bars", "1-2"},
                                                                  {"--times", "2"},
                                                                  {"--mix", "bass=-6"},
                                                                  {"--place", "bass=+8"},
                                                                  {"--swing", "2:1"},
                                                                  {"--feel", "ballad"},
                                                                  {"--silence", "4:4"},
                                                                  {"--click", "2 4"},
                                                                  {"--count-in", "1"},
                                                                  {"--seed", "4"},
                                                                  {"--voicings", "shells"}}) {
        std::vector<std::string> arguments{"render", take, out.string()};
        arguments.insert(arguments.end(), wish.begin(), wish.end());
        const auto ran = run_compline(arguments);
        INFO(wish.front() << "\n" << shown(ran));
        CHECK(ran.status == 2);
        CHECK(contains(ran.err, "take.mid is a take: it says itself what was played"));
        CHECK_FALSE(std::filesystem::exists(out));
    }
    CHECK(run_compline({"render", take, out.string(), "--rate", "44100", "--mono"}).status == 0);
}
