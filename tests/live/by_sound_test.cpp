// Practising without a MIDI pickup: the guitar's ordinary sound comes in by an audio server, and
// time alone is judged.

#include "../../tools/jack_player.d/jack_player.hpp"
#include "app/program.hpp"
#include "live/jack_server.hpp"
#include "live/practice_process.hpp"
#include "support/plucked.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

using namespace compline;
using nlohmann::json;
using tests::contains;
using tests::JackServer;
using tests::PracticeProcess;
using time::Seconds;

namespace {

constexpr time::SampleRate rate{48000};
constexpr int period = 256;
constexpr double beat = 60.0 / 240;
constexpr double late = 0.080;  // the third bar's chord

/// A chord on the first beat of each of four bars, three strings a few milliseconds apart; the
/// first click of the count-in is at 0.
std::vector<tests::Pluck> four_chords() {
    std::vector<tests::Pluck> plucks;
    for (int bar = 0; bar < 4; ++bar) {
        const Seconds at(4 * beat * (bar + 1) + (bar == 2 ? late : 0));
        const int root = 45 + 2 * bar;
        for (const int string : {5, 4, 3}) {
            const Seconds rolled(0.003 * (5 - string));
            plucks.push_back({at + rolled, string, harmony::MidiNote(root + 5 * (5 - string)),
                              -14.0, Seconds(0.6)});
        }
    }
    return plucks;
}

}  // namespace

TEST_CASE("a guitar without a pickup is heard by its sound, and its time alone is judged",
          "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server({period});
    const tests::TemporaryFolder folder;
    const auto chart = tests::text_file(folder, "four.yaml",
                                        "title: Four Doors\nkey: C\ntempo: 240\nfeel: straight\n"
                                        "sections:\n  A: C6 | F6 | Dm7 | G7\n");
    jack::PlayerOptions options{"box", "", Seconds(8), 0.001F};
    options.sounding = {tests::plucked(four_chords(), rate, Seconds(7), 3), {}, 0.002F};
    jack::JackPlayer box(options);
    box.start();
    const auto take = folder.file("take.mid").string();
    // In a loop of two clients the server puts a period more.
    const auto loop = std::to_string(1000.0 * period / rate.hz());
    PracticeProcess practice({chart, "--out", "JACK:box", "--in", "sound:JACK:box", "--times", "1",
                              "--count-in", "1", "--bass", "off", "--against", "beat",
                              "--round-trip", loop, "--take", take, "--json"});
    const auto ran = practice.wait(20);
    INFO(tests::shown(ran));
    REQUIRE(ran.status == 0);
    CHECK(contains(ran.err, "heard by its sound: time alone is judged"));
    const auto report = json::parse(ran.out);
    CHECK(report.at("heard") == "sound");
    REQUIRE(report.at("changes").size() == 4);
    for (std::size_t bar = 0; bar < 4; ++bar) {
        const auto& change = report.at("changes")[bar];
        INFO(change.dump());
        CHECK(change.at("verdict") == (bar == 2 ? "late" : "on_time"));
        CHECK(change.at("tones") == "none");
        const double meant = bar == 2 ? 1000 * late : 0;
        CHECK(std::fabs(change.at("lateness_ms").get<double>() - meant) < 2);
    }
    const auto again = tests::run_compline({"score", take, "--json"});
    CHECK(json::parse(again.out).at("changes") == report.at("changes"));
}
