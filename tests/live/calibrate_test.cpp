// Calibration on an audio server: an interface with a cable in it, and a guitar whose MIDI comes
// known times behind its sound, both played from outside.

#include "../../tools/jack_player.d/jack_player.hpp"
#include "app/program.hpp"
#include "live/jack_server.hpp"
#include "support/plucked.hpp"

#include <compline/guitar/fretboard.hpp>

#include <nlohmann/json.hpp>

#include <cmath>

using namespace compline;
using jack::JackPlayer;
using jack::PlayerOptions;
using jack::ScriptedMessage;
using jack::Sounding;
using nlohmann::json;
using tests::contains;
using tests::JackServer;
using tests::Ran;
using tests::run_compline;
using time::Seconds;

namespace {

constexpr float from_the_first_cycle = -1;
constexpr time::SampleRate rate{48000};
constexpr int period = 256;

PlayerOptions an_interface(const Sounding& sounding) {
    PlayerOptions options;
    options.name = "box";
    options.room = Seconds(1);
    options.threshold = from_the_first_cycle;
    options.sounding = sounding;
    return options;
}

/// What is found is kept below this folder.
Ran by_wire(const std::vector<Sounding::Wire>& wires, const tests::TemporaryFolder& settings) {
    JackPlayer box(an_interface({{}, wires, 0.01F}));
    box.start();
    return run_compline({"calibrate", "wire", "--out", "JACK:box", "--sound-in", "JACK:box",
                         "--clicks", "4", "--json", "--write"},
                        settings.path().string());
}

std::string kept_in(const tests::TemporaryFolder& settings) {
    const auto file = settings.file("compline") / "settings.yaml";
    return std::filesystem::exists(file) ? files::load_text(file) : "nothing";
}

/// What MIDI comes behind its sound, by string and note: what is to be found.
Seconds truth(int string, harmony::MidiNote note) {
    const double hz = 440 * std::pow(2.0, (note.number() - 69) / 12.0);
    return Seconds(0.006 + 1.4 / hz + (string == 5 ? 0.008 : 0));
}

/// Open string and twelfth fret in turn, on one string after the other, the low one first; twice,
/// since a busy machine may not be listening yet when it begins. It ends when there is enough.
std::vector<tests::Pluck> eight_on_each_string() {
    const auto neck = guitar::Fretboard::standard();
    constexpr Seconds apart(0.16);
    std::vector<tests::Pluck> plucks;
    for (int n = 0; n < 12; ++n) {
        const int string = 6 - n % 6;
        for (int i = 0; i < 8; ++i) {
            const harmony::MidiNote note(neck.open(string).number() + (i % 2 == 0 ? 0 : 12));
            const Seconds at = Seconds(1.5) + apart * static_cast<double>(plucks.size());
            plucks.push_back({at, string, note, i % 4 < 2 ? -10.0 : -22.0, Seconds(0.15)});
        }
    }
    return plucks;
}

std::vector<ScriptedMessage> midi_of(const std::vector<tests::Pluck>& plucks) {
    std::vector<ScriptedMessage> script;
    for (const auto& pluck : plucks) {
        const auto channel = static_cast<std::uint8_t>(pluck.string - 1);
        const auto key = static_cast<std::uint8_t>(pluck.note.number());
        const auto velocity = static_cast<std::uint8_t>(pluck.level_db > -15 ? 100 : 55);
        const Seconds on = pluck.at + truth(pluck.string, pluck.note);
        const auto note_on = static_cast<std::uint8_t>(0x90 | channel);
        script.push_back({nearest_frame(on, rate).count(), {note_on, key, velocity}});
        script.push_back({nearest_frame(on + Seconds(0.12), rate).count(), {note_on, key, 0}});
    }
    return script;
}

}  // namespace

TEST_CASE("a cable from an output into an input is measured to a tenth of a frame", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server({period});
    const tests::TemporaryFolder settings;
    const auto ran = by_wire({{550, 0.3F}}, settings);
    INFO(tests::shown(ran));
    REQUIRE(ran.status == 0);
    const auto found = json::parse(ran.out);
    CHECK(found.at("known") == true);
    CHECK(found.at("heard") == found.at("clicks"));
    // A loop of two clients has a period more in it, which no cable has.
    const double frames = found.at("round_trip_frames");
    const bool is_looped = frames > 550 + period / 2;
    CHECK(std::fabs(frames - (is_looped ? 550 + period : 550)) < 0.1);
    CHECK(kept_in(settings) == (is_looped ? "round-trip: \"16.792 at 48000/256 by JACK:box\"\n"
                                          : "round-trip: \"11.458 at 48000/256 by JACK:box\"\n"));
}

TEST_CASE("no cable, and one too many, are refused in words and measure nothing", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server({period});
    const tests::TemporaryFolder settings;
    const auto none = by_wire({}, settings);
    INFO(tests::shown(none));
    CHECK(none.status == 1);
    CHECK(json::parse(none.out).at("round_trip_ms").is_null());
    const auto two = by_wire({{545, 0.3F}, {3545, 0.2F}}, settings);
    INFO(tests::shown(two));
    CHECK(two.status == 1);
    CHECK(json::parse(two.out).at("known") == false);
    CHECK(kept_in(settings) == "nothing");
}

TEST_CASE("how far MIDI comes behind the guitar's sound is found for each string", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server({period});
    const auto plucks = eight_on_each_string();
    Sounding sounding;
    sounding.script = tests::plucked(plucks, rate, plucks.back().at + Seconds(1), 7);
    sounding.hum = 0.005F;
    JackPlayer box(an_interface(sounding));
    box.start(midi_of(plucks));
    const auto ran =
        run_compline({"calibrate", "guitar", "--out", "JACK:system", "--in", "JACK:box:strings",
                      "--sound-in", "JACK:box", "--notes", "8", "--json"});
    INFO(tests::shown(ran));
    REQUIRE(ran.status == 0);
    const auto found = json::parse(ran.out);
    REQUIRE(found.at("known") == true);
    for (const auto& pluck : plucks) {
        const double hz = 440 * std::pow(2.0, (pluck.note.number() - 69) / 12.0);
        const auto& string = found.at("strings")[static_cast<std::size_t>(pluck.string - 1)];
        CHECK(string.at("string") == pluck.string);
        const double taken_off = found.at("constant_ms").get<double>() +
                                 1000 * found.at("cycles").get<double>() / hz +
                                 string.at("difference_ms").get<double>();
        const double meant = truth(pluck.string, pluck.note).milliseconds();
        CHECK(std::fabs(taken_off - meant) < 0.5);
    }
}
