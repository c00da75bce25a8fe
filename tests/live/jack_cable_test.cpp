// On a JACK server with a guitarist and a foot as clients of their own: cables that come out, a
// program that is stopped for a while, and a band that plays on.

#include "live/jack_server.hpp"
#include "live/keyboard.hpp"
#include "live/rendered_take.hpp"

#include <algorithm>
#include <csignal>
#include <memory>
#include <optional>
#include <string>
#include <utility>
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

/// The row is looped at once, and all stops six seconds later.
std::vector<jack::ScriptedMessage> feet() {
    return {{14400, midi::control_change(1, 64, 127)},
            {19200, midi::control_change(1, 64, 0)},
            {6 * 48000, midi::program_change(1, 3)}};
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
    for (const char* again : {"second.mid", "third.mid"}) {
        if (!loop.disturbed) break;
        path = folder.file(again).string();
        loop = play_a_loop(path);
    }
    const auto& [ran, take, heard, disturbed] = loop;
    INFO(tests::shown(ran));
    REQUIRE_FALSE(disturbed);
    CHECK(contains(ran.err, is_out));
    CHECK(contains(ran.err, is_in));
    CHECK(contains(ran.out, "its cable was out once, "));
    CHECK(contains(ran.out, " uncertain"));
    // But for what was asked for in playing, which the report would ask for again.
    const auto scored = tests::run_compline({"score", path, "--chart", tests::blues()}).out;
    const auto judged = [](const std::string& text) {
        return text.substr(0, std::min(text.find("Weakest"), text.find("\nNext  ")));
    };
    CHECK(judged(scored) == judged(ran.out));

    REQUIRE(take.cable.size() == 2);
    // On a busy machine the server is late, and the tune with it: less of it than three seconds.
    const auto was_out = take.cable[1].at - take.cable[0].at;
    CHECK(was_out > Seconds(1));
    CHECK(was_out < Seconds(3.6));
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

namespace {

/// A guitarist who goes before a note is played, comes back under the same name, and is heard then.
class GoneAndBack {
  public:
    GoneAndBack(const std::string& api, const std::string& take) {
        come();
        auto arguments = tests::to_player("guitarist", take);
        arguments[2] = "JACK:system";
        arguments[4] = api + ":guitarist:strings";
        practice.emplace(arguments);
        REQUIRE(hears_the_band(*guitarist));
        guitarist->disappear();
        CHECK(says("the guitar's cable is out: " + arguments[4] + " is waited for\n"));
        come();
        CHECK(says("the guitar's cable is in again: " + arguments[4] + "\n"));
        REQUIRE(hears_the_band(*guitarist));
        play_on(10);
    }
    /// So many messages more.
    void play_on(std::size_t messages) {
        const auto sent = guitarist->sent();
        REQUIRE(comes_true([&] { return guitarist->sent() >= sent + messages; }));
    }

    // Goes on without who is stopped.
    JackServer server{{256, 48000, false, false}};
    std::unique_ptr<JackPlayer> guitarist;
    std::optional<PracticeProcess> practice;

  private:
    void come() {
        guitarist =
            std::make_unique<JackPlayer>(jack::PlayerOptions{"guitarist", "", Seconds(1), 0.001F});
        guitarist->start(tests::steady_notes(20));
    }
    bool says(const std::string& text) {
        return comes_true([&] { return contains(practice->err(), text); });
    }
};

}  // namespace

TEST_CASE("a guitar that goes and comes back is heard again, also behind a stop of the program",
          "[live]") {
    if (!JackServer::installed()) return;
    const tests::TemporaryFolder folder;
    const auto path = folder.file("take.mid").string();
    GoneAndBack night("JACK", path);
    night.practice->signal(SIGSTOP);
    ::usleep(3'000'000);
    night.practice->signal(SIGCONT);
    night.play_on(20);
    night.practice->signal(SIGINT);
    const auto ran = night.practice->wait(10);
    INFO(tests::shown(ran));
    CHECK(ran.status == 0);
    const auto take = tests::load_take(path);
    CHECK(take.cable.size() == 2);
    CHECK_FALSE(take.interruptions.empty());
    CHECK(take.messages.size() >= 25);
    CHECK(take.end < Seconds(6));  // the tune stood still with the program
}

TEST_CASE("through RtMidi a guitar that goes and comes back is heard again", "[live]") {
    if (!JackServer::installed()) return;
    const tests::TemporaryFolder folder;
    const auto path = folder.file("take.mid").string();
    GoneAndBack night("RtMidi/JACK", path);
    night.practice->signal(SIGINT);
    const auto ran = night.practice->wait(10);
    INFO(tests::shown(ran));
    CHECK(ran.status == 0);
    CHECK_FALSE(contains(ran.err, "MidiInJack"));  // a line of the library's own
    CHECK(tests::load_take(path).messages.size() >= 8);
}
