// On a JACK server with a guitarist and a foot as clients of their own: cables that come out, a
// program that is stopped for a while, and a band that plays on.

#include "live/jack_server.hpp"
#include "live/keyboard.hpp"
#include "live/rendered_take.hpp"

#include <csignal>
#include <memory>
#include <variant>

using namespace compline;
using compline::jack::JackPlayer;
using tests::comes_true;
using tests::contains;
using tests::JackServer;
using tests::PracticeProcess;
using time::Seconds;

namespace {

constexpr const char* is_out = "the guitar's cable is out: JACK:guitarist:strings is waited for\n";
constexpr const char* is_in = "the guitar's cable is in again: JACK:guitarist:strings\n";

/// Before a client's ports are there, or able to be connected, this fails.
bool hears_the_band(JackPlayer& player) {
    return comes_true([&] {
        try {
            return player.connect_inputs_from("compline");
        } catch (const jack::JackError&) {
            return false;
        }
    });
}

/// The row is looped at once, and all stops seven seconds later.
std::vector<jack::ScriptedMessage> feet() {
    return {{14400, midi::control_change(1, 64, 127)},
            {19200, midi::control_change(1, 64, 0)},
            {7 * 48000, midi::program_change(1, 3)}};
}

/// What was heard of a loop in which the guitar's cable was out for three seconds.
struct HeardLoop {
    tests::Ran ran;
    practice::Take take;
    sound::Stereo heard;
    bool disturbed;  ///< frames were lost between the program and who listens
};

HeardLoop play_a_loop(const std::string& path) {
    const JackServer server({256, 48000, false, true});  // patient: a late program loses no frame
    JackPlayer guitarist({"guitarist", "", Seconds(15), 0.001F});
    guitarist.start(tests::steady_chords(15));
    JackPlayer foot({"foot", "", Seconds(1), 0.001F});
    foot.start(feet());
    auto arguments = tests::to_player("guitarist", path);
    arguments.insert(arguments.end(), {"--tempo", "400", "--count-in", "1", "--pedal-in",
                                       "JACK:foot:", "--pedal", "64=loop here, program 3=stop"});
    PracticeProcess practice(arguments);
    REQUIRE(guitarist.wait_for_click(Seconds(10)));
    REQUIRE(hears_the_band(foot));
    REQUIRE(comes_true([&] { return foot.sent() >= 2; }));
    ::usleep(900'000);
    guitarist.disconnect_strings();
    ::usleep(3'000'000);
    REQUIRE(guitarist.connect_strings_to("compline-guitar"));
    auto ran = practice.wait(10);
    INFO(tests::shown(ran));
    REQUIRE(ran.status == 0);
    auto take = tests::load_take(path);
    return {std::move(ran), std::move(take), guitarist.recording(), guitarist.jumps() > 0};
}

}  // namespace

TEST_CASE("in a loop that a foot asked for the cable is out for three seconds, the band plays on",
          "[live]") {
    if (!JackServer::installed()) return;
    const tests::TemporaryFolder folder;
    auto path = folder.file("take.mid").string();
    auto loop = play_a_loop(path);
    if (loop.disturbed) {
        path = folder.file("second.mid").string();
        loop = play_a_loop(path);
    }
    const auto& [ran, take, heard, disturbed] = loop;
    INFO(tests::shown(ran));
    REQUIRE_FALSE(disturbed);
    CHECK(contains(ran.err, is_out));
    CHECK(contains(ran.err, is_in));
    CHECK(contains(ran.out, "its cable was out once, 3 s in all"));
    CHECK(contains(ran.out, " uncertain"));
    // But for what was asked for in playing, which the report would ask for again.
    const auto scored = tests::run_compline({"score", path, "--chart", tests::blues()}).out;
    const auto judged = [](const std::string& text) {
        return text.substr(0, text.find("Weakest"));
    };
    CHECK(judged(scored) == judged(ran.out));

    REQUIRE(take.cable.size() == 2);
    CHECK((take.cable[1].at - take.cable[0].at).count() == Approx(3).margin(0.4));
    CHECK(take.pedal.size() == 3);
    CHECK(take.info->pedal.own_port);
    const auto decisions = take.info->decisions();
    REQUIRE(decisions.size() == 2);
    CHECK(std::holds_alternative<roadmap::NewWay>(decisions[0].what));
    CHECK(std::holds_alternative<roadmap::Stopped>(decisions[1].what));

    // A bar is counted in; the last notes of who stops are cut off where he stops.
    CHECK(take.info->machine->late_strokes == 0);
    const auto until = Seconds(0.6) + take.end - Seconds(0.1);
    const auto frames = static_cast<std::size_t>(until.count() * 48000);
    CHECK(frames > std::size_t{5} * 48000);
    CHECK(tests::first_other(heard, tests::rendered(path), frames) == std::nullopt);
}

TEST_CASE(
    "a guitar that goes and comes back is heard again, and so is one after a stop of the "
    "program",
    "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server({256, 48000, false, false});  // goes on without who is stopped
    const tests::TemporaryFolder folder;
    const auto path = folder.file("take.mid").string();
    auto guitarist =
        std::make_unique<JackPlayer>(jack::PlayerOptions{"guitarist", "", Seconds(1), 0.001F});
    guitarist->start();
    auto arguments = tests::to_player("guitarist", path);
    arguments[2] = "JACK:system";
    PracticeProcess practice(arguments);
    const auto says = [&](const char* text) {
        return comes_true([&] { return contains(practice.err(), text); });
    };
    REQUIRE(hears_the_band(*guitarist));
    guitarist->disappear();
    CHECK(says(is_out));
    guitarist =
        std::make_unique<JackPlayer>(jack::PlayerOptions{"guitarist", "", Seconds(1), 0.001F});
    guitarist->start(tests::steady_notes(20));
    CHECK(says(is_in));
    REQUIRE(hears_the_band(*guitarist));
    REQUIRE(comes_true([&] { return guitarist->sent() >= 10; }));
    practice.signal(SIGSTOP);
    ::usleep(3'000'000);
    practice.signal(SIGCONT);
    const auto sent = guitarist->sent();
    REQUIRE(comes_true([&] { return guitarist->sent() >= sent + 20; }));
    practice.signal(SIGINT);
    const auto ran = practice.wait(10);
    INFO(tests::shown(ran));
    CHECK(ran.status == 0);
    const auto take = tests::load_take(path);
    CHECK(take.cable.size() == 2);
    CHECK_FALSE(take.interruptions.empty());
    CHECK(take.messages.size() >= 25);
    CHECK(take.end < Seconds(6));  // the tune stood still with the program
}
