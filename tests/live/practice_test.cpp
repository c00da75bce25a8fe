// Practising live: what a player types and sees, and what is left when something breaks.

#include "../../tools/live.d/flood.hpp"
#include "app/emulated_terminal.hpp"
#include "live/jack_server.hpp"
#include "live/practice_process.hpp"
#include "live/steady_guitarist.hpp"

#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <functional>
#include <memory>

using namespace compline;
using compline::jack::JackPlayer;
using tests::comes_true;
using tests::JackServer;
using tests::load_take;
using tests::note_of;
using tests::notes;
using tests::PracticeProcess;
using tests::steady_notes;
using tests::to_player;
using tests::Watched;
using time::Seconds;

namespace {

/// Something breaks while a player plays: the message, the take, the report, status 1.
void check_survives(JackServer& server, const std::string& output, const std::string& message,
                    const std::function<void(JackServer&, JackPlayer&)>& breakdown) {
    const tests::TemporaryFolder folder;
    const auto take = folder.file("take.mid").string();
    JackPlayer player({"guitarist", "", Seconds(20), 0.001F});
    player.start(steady_notes(15));
    auto arguments = to_player("guitarist", take);
    arguments[2] = output;
    std::unique_ptr<PracticeProcess> drummer;  // one that the player hears, to begin at all
    if (output != "JACK:guitarist") {
        drummer = std::make_unique<PracticeProcess>(
            std::vector<std::string>{tests::blues(), "--out", "JACK:guitarist", "--in", "none"});
    }
    PracticeProcess practice(arguments);
    REQUIRE(player.wait_for_click(Seconds(10)));
    REQUIRE(comes_true([&] { return player.sent() >= 40; }));
    breakdown(server, player);
    const auto ran = practice.wait(10);
    INFO(tests::shown(ran));
    CHECK(ran.status == 1);
    CHECK(tests::contains(ran.err, message));
    CHECK_FALSE(tests::contains("\n" + ran.err, "\nRtApi"));  // a line of the library's own
    CHECK(tests::contains(ran.err, "The take is in " + take));
    // All that was asked for, to be pasted; but the take's file is there already.
    CHECK(tests::contains(ran.err, "To go on:\n         compline practice "));
    CHECK(tests::contains(ran.err, " --out " + output));
    CHECK_FALSE(tests::contains(ran.err, "--take"));
    CHECK_FALSE(tests::contains(ran.err, "cable"));
    CHECK(tests::contains(ran.out, "Changes "));
    const auto kept = load_take(take);
    CHECK(kept.messages.size() >= 20);
    REQUIRE(kept.info);
    CHECK(kept.info->machine);
    CHECK(tests::run_compline({"score", take, "--chart", tests::blues()}).out == ran.out);
}

}  // namespace

TEST_CASE("a player who stops with Ctrl-C keeps the take and reads the report", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    const tests::TemporaryFolder folder;
    const auto take = folder.file("take.mid").string();
    JackPlayer player({"guitarist", "", Seconds(20), 0.001F});
    player.start(steady_notes(15));
    auto arguments = to_player("guitarist", take);
    const auto page = folder.file("page.html").string();
    arguments.insert(arguments.end(),
                     {"--round-trip", "11.354 at 48000/256 by JACK:guitarist", "--html", page});
    PracticeProcess practice(arguments);
    REQUIRE(player.wait_for_click(Seconds(10)));
    REQUIRE(comes_true([&] { return player.sent() >= 60; }));
    practice.signal(SIGINT);
    const auto ran = practice.wait(10);
    INFO(tests::shown(ran));
    CHECK(ran.status == 0);
    CHECK(tests::contains(ran.err, "\nThe take is in " + take + "\n"));
    CHECK(tests::contains(ran.err, "\ncount-in, 132 bpm, first F7\n"));
    CHECK(tests::contains(ran.out, "Blue Kettle on the Back Stairs"));
    CHECK(tests::contains(ran.out, "Sound    JACK:guitarist, 48000 Hz, 256 frames (every 5.3 ms)"));
    CHECK(tests::contains(ran.out, "MIDI     JACK:guitarist:strings"));
    CHECK(tests::contains(ran.out, "11.4 ms round trip, measured, in place of the system's "));
    const auto kept = load_take(take);
    CHECK(kept.info->machine->round_trip_ms.value() == Approx(11.354));
    CHECK(kept.info->decisions() ==
          std::vector{roadmap::Decision{13, roadmap::Stopped{}}});  // in the first time through
    CHECK(tests::run_compline({"score", take}).status == 0);
    CHECK(tests::run_compline({"score", take, "--chart", tests::blues()}).out == ran.out);
    CHECK(tests::contains(ran.err, "\nThe page is in " + page + "\n"));
    CHECK(tests::contains(files::load_text(page), ran.out.substr(0, ran.out.find('\n'))));
    const auto again = tests::run_compline({"practice", tests::blues(), "--take", take});
    CHECK(again.status == 2);
    CHECK(tests::contains(again.err, "is there already: give the take another name"));
}

TEST_CASE("3000 messages a second for some seconds: every one is in the take", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    const tests::TemporaryFolder folder;
    const auto take = folder.file("take.mid").string();
    JackPlayer player({"guitarist", "", Seconds(1), 0.001F});
    auto script = steady_notes(4);
    for (const auto& bend : outside::flood(Seconds(0), Seconds(4))) {
        script.push_back({nearest_frame(bend.at, player.rate()).count(), bend.message});
    }
    std::stable_sort(script.begin(), script.end(),
                     [](const auto& a, const auto& b) { return a.frame < b.frame; });
    player.start(script);
    PracticeProcess practice(to_player("guitarist", take));
    REQUIRE(player.wait_for_click(Seconds(10)));
    REQUIRE(player.wait_until_sent(Seconds(30)));
    ::usleep(300'000);  // what was sent last is on its way
    practice.signal(SIGINT);
    const auto ran = practice.wait(10);
    INFO(tests::shown(ran));
    CHECK(ran.status == 0);
    const auto kept = load_take(take);
    REQUIRE(kept.messages.size() == script.size());
    CHECK(std::equal(
        kept.messages.begin(), kept.messages.end(), script.begin(),
        [](const auto& timed, const auto& sent) { return timed.message == sent.message; }));
    REQUIRE(kept.info);
    REQUIRE(kept.info->machine);
    CHECK(kept.info->machine->dropped_events == 0);
    CHECK(kept.info->machine->unreadable_bytes == 0);
}

TEST_CASE("the server dies: the player is told, the take and the report are kept", "[live]") {
    if (!JackServer::installed()) return;
    JackServer server;
    check_survives(server, "JACK:system", "the JACK server has gone",
                   [](JackServer& dying, JackPlayer&) { dying.kill_hard(); });
}

TEST_CASE("JACK changes its period: the player is told, the take and the report are kept",
          "[live]") {
    if (!JackServer::installed()) return;
    JackServer server({256, 48000, false, false});
    check_survives(server, "JACK:system", "JACK:system plays no more",
                   [](JackServer&, JackPlayer& player) { player.set_buffer_size(128); });
}

namespace {

/// Ten programs that hear the same notes; the last one plays for the player to begin. A patient
/// server would wait for the dead; an impatient one puts out whoever is late, and a busy machine
/// may make it do so before there is any music: then nothing has been tried yet (not `playing`).
struct TenPrograms {
    explicit TenPrograms(std::string prefix) : take_prefix(std::move(prefix)) {
        player.start(steady_notes(15));
        for (int run = 0; run < 10; ++run) {
            auto arguments = to_player("guitarist", take_of(run));
            if (run != 9) arguments[2] = "JACK:system";
            programs.push_back(std::make_unique<PracticeProcess>(arguments));
            if (run == 8) ::usleep(1'500'000);  // the others listen before the player plays
        }
        playing = player.wait_for_click(Seconds(10));
    }
    ~TenPrograms() { server.kill_hard(); }  // it would wait for the dead, ten seconds long
    TenPrograms(const TenPrograms&) = delete;
    TenPrograms& operator=(const TenPrograms&) = delete;

    [[nodiscard]] std::string take_of(int run) const {
        return take_prefix + "-" + std::to_string(run) + ".mid";
    }

    std::string take_prefix;
    JackServer server{{1024, 48000, false, false}};  // a long period bears ten programs
    JackPlayer player{{"guitarist", "", Seconds(20), 0.001F}};
    std::vector<std::unique_ptr<PracticeProcess>> programs;
    bool playing = false;
};

}  // namespace

TEST_CASE("a program that is killed leaves a take that is good to its last second", "[live]") {
    if (!JackServer::installed()) return;
    const tests::TemporaryFolder folder;
    std::unique_ptr<TenPrograms> ten;
    for (int tries = 1; tries <= 3 && (!ten || !ten->playing); ++tries) {
        ten.reset();
        ten = std::make_unique<TenPrograms>(folder.file("take-" + std::to_string(tries)).string());
    }
    REQUIRE(ten->playing);
    JackPlayer& player = ten->player;
    REQUIRE(comes_true([&] { return player.sent() >= 20; }));
    // Moments that have nothing to do with beats, bars or the half second between signs of life.
    constexpr int waits_ms[] = {370, 190, 410, 90, 530, 310, 670, 230, 110, 470};
    for (int run = 0; run < 10; ++run) {
        ::usleep(static_cast<useconds_t>(waits_ms[run] * 1000));
        const auto sent = player.sent();
        ten->programs[static_cast<std::size_t>(run)]->signal(SIGKILL);
        CAPTURE(run, sent);
        CHECK(ten->programs[static_cast<std::size_t>(run)]->wait(10).status == 128 + SIGKILL);
        const auto take = load_take(ten->take_of(run));
        REQUIRE(!take.messages.empty());
        const auto kept_last = take.messages.back().message.data1;
        const auto missing = (note_of((sent - 1) / 2) - kept_last + notes) % notes;
        CHECK(missing <= 10);  // ten notes a second
        const auto scored =
            tests::run_compline({"score", ten->take_of(run), "--chart", tests::blues()});
        INFO(tests::shown(scored));
        CHECK(scored.status == 0);
        CHECK(tests::contains(scored.err, "the take was cut short"));
    }
}

TEST_CASE("on a terminal the chart is shown, r starts over and q stops", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    const tests::TemporaryFolder folder;
    const tests::PseudoTerminal terminal(80, 24);
    ::setenv("TERM", "xterm", 1);
    ::setenv("NO_COLOR", "1", 1);
    JackPlayer player({"guitarist", "", Seconds(20), 0.001F});
    player.start(steady_notes(15));
    auto arguments = to_player("guitarist", folder.file("take.mid").string());
    arguments.insert(arguments.end(), {"--bars", "1-4", "--tempo", "400", "--count-in", "1"});
    PracticeProcess practice(arguments, terminal.inside());
    Watched watched{terminal};
    CHECK(watched.shows("space: pause"));
    CHECK(watched.shows("A [ F7"));
    CHECK(watched.shows("1st time through: "));
    terminal.type("r");
    CHECK(watched.shows("over again; what you played is in " + folder.file("take.mid").string()));
    watched.seen.clear();
    CHECK(watched.shows("count-in"));
    CHECK(watched.shows("A [ F7"));
    terminal.type("q");
    const auto ran = practice.wait(10);
    watched.seen += terminal.received();
    INFO(watched.seen << tests::shown(ran));
    CHECK(ran.status == 0);
    CHECK(tests::contains(watched.seen, "The take is in " + folder.file("take-2.mid").string()));
    CHECK(tests::contains(ran.out, "bars 1-4, once through"));
    CHECK(load_take(folder.file("take.mid").string()).info->ended);
}

namespace {

/// The program on a terminal of 80 by 24, in front of somebody who does not play.
struct Onlooker {
    explicit Onlooker(const std::vector<std::string>& more) {
        std::vector<std::string> words{tests::blues(), "--out", "jack:guitarist", "--in", "none",
                                       "--count-in",   "1"};
        words.insert(words.end(), more.begin(), more.end());
        ::setenv("TERM", "xterm", 1);
        ::setenv("NO_COLOR", "1", 1);
        player.start();
        practice.emplace(words, terminal.inside());
    }

    const JackServer server;
    const tests::PseudoTerminal terminal{80, 24};
    JackPlayer player{{"guitarist", "", Seconds(20), 0.001F}};
    std::optional<PracticeProcess> practice;
    Watched watched{terminal};
};

}  // namespace

TEST_CASE("with voicings the grip to hold and the next one are on the terminal", "[live]") {
    if (!JackServer::installed()) return;
    Onlooker onlooker({"--tempo", "300", "--voicings", "shells"});
    auto& watched = onlooker.watched;
    CHECK(watched.shows("next  F7  bar 1"));
    CHECK(watched.shows("now  F7"));
    CHECK(watched.shows("next  B♭7  bar 2"));
    CHECK(watched.shows("┬─┬─┬─"));
    CHECK(watched.shows("next  Bdim7  bar 6"));
    onlooker.terminal.type("q");
    const auto ran = onlooker.practice->wait(10);
    INFO(watched.seen << tests::shown(ran));
    CHECK(ran.status == 0);
}

TEST_CASE("the chord is shown large, v goes to the rows and back, and nothing of it is left",
          "[live]") {
    if (!JackServer::installed()) return;
    Onlooker onlooker({"--tempo", "400", "--view", "large"});
    auto& watched = onlooker.watched;
    CHECK(watched.shows("███████████████   ███████████████\x1B[K"));  // F7
    CHECK(watched.shows("v: rows"));
    onlooker.terminal.type("v");
    CHECK(watched.shows("A ["));
    onlooker.terminal.type("v\x1B[200~q\x1B[201~");  // and q, pasted
    const auto rows = watched.seen.size();
    CHECK(comes_true([&] {
        watched.look();
        return watched.seen.find("v: rows", rows) != std::string::npos;
    }));
    onlooker.terminal.type("q");
    const auto ran = onlooker.practice->wait(10);
    watched.look();
    INFO(tests::shown(ran));
    CHECK(ran.status == 0);
    tests::EmulatedTerminal window(80, 24);
    window.take(watched.seen);
    CHECK(window.seen().empty());
}

TEST_CASE("a signal that ends practice leaves the terminal as it was, and the take", "[live]") {
    if (!JackServer::installed()) return;
    JackServer server;
    const tests::TemporaryFolder folder;
    const auto take = folder.file("take.mid").string();
    const tests::PseudoTerminal terminal(80, 24);
    const auto before = terminal.mode();
    ::setenv("TERM", "xterm", 1);
    JackPlayer player({"guitarist", "", Seconds(20), 0.001F});
    player.start(steady_notes(15));
    PracticeProcess practice(to_player("guitarist", take), terminal.inside());
    REQUIRE(player.wait_for_click(Seconds(10)));
    Watched watched{terminal};
    CHECK(watched.shows("space: pause"));
    CHECK(!tests::same(terminal.mode(), before));
    practice.signal(SIGQUIT);
    CHECK(practice.wait(10).status == 128 + SIGQUIT);
    CHECK(tests::same(terminal.mode(), before));
    CHECK(watched.shows("\x1B[?25h"));
    CHECK_FALSE(load_take(take).info->ended);
    server.kill_hard();  // it would wait for the dead, ten seconds long
}

TEST_CASE("practice whose stderr is full or closed plays on, and prints its report", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    const tests::TemporaryFolder folder;
    for (const std::string failure : {"2>/dev/full", "2>&-"}) {
        JackPlayer player({"guitarist", "", Seconds(20), 0.001F});
        player.start(steady_notes(15));
        const auto take = folder.file("take" + failure.substr(3, 1) + ".mid").string();
        auto arguments = to_player("guitarist", take);
        arguments.insert(arguments.begin(), "practice");
        arguments.insert(arguments.end(), {"--bars", "1", "--times", "1", "--tempo", "400"});
        const auto ran = tests::run(tests::command_line(arguments) + " " + failure);
        INFO(ran.output);
        CHECK(ran.status == 0);
        CHECK(tests::contains(ran.output, "Changes "));
        CHECK(load_take(take).info->ended);
    }
}

TEST_CASE("with --in none the band plays until it is stopped, and no report is printed", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    JackPlayer player({"guitarist", "", Seconds(20), 0.001F});
    player.start();
    PracticeProcess practice({tests::blues(), "--out", "jack:guitarist", "--in", "none"});
    REQUIRE(player.wait_for_click(Seconds(10)));
    practice.signal(SIGTERM);
    const auto ran = practice.wait(10);
    INFO(tests::shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.out.empty());
    CHECK(tests::contains(ran.err, "\ncount-in, 132 bpm, first F7\n"));
    CHECK_FALSE(tests::contains(ran.err, "\x1B"));
}

TEST_CASE("a device that is not there, or meant twice, is refused with what there is", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    const JackPlayer one({"guitar one", "", Seconds(1), 0.001F});
    const JackPlayer two({"guitar two", "", Seconds(1), 0.001F});
    const auto refused = [](const std::vector<std::string>& options, const std::string& words) {
        std::vector<std::string> arguments{"practice", tests::blues()};
        arguments.insert(arguments.end(), options.begin(), options.end());
        const auto ran = tests::run_compline(arguments);
        INFO(tests::shown(ran));
        CHECK(ran.status == 2);
        CHECK(ran.out.empty());
        CHECK(tests::contains(ran.err, words));
    };
    refused({"--out", "piano"}, "--out piano: no such device; there are:\n  JACK:");
    refused({"--out", "guitar", "--in", "none"}, "2 devices are called so");
    refused({"--in", "guitar"}, "JACK:guitar two:strings");
    refused({}, "several MIDI inputs are here; say which by --in:");
    refused({"--out", "system", "--rate", "44100", "--in", "none"},
            "JACK:system does not run at 44100 Hz, but at 48000");
    refused({"--in", "JACK:piano"}, "--in JACK:piano: no such device");
}

TEST_CASE("without any sound server the player is told what is missing, status 1", "[live]") {
    ::setenv("JACK_DEFAULT_SERVER", "compline-test-no-such-server", 1);
    const auto ran =
        tests::run_compline({"practice", tests::blues(), "--out", "JACK:", "--in", "none"});
    ::unsetenv("JACK_DEFAULT_SERVER");
    INFO(tests::shown(ran));
    CHECK(ran.status == 1);
    CHECK(tests::contains(ran.err,
                          "there is nothing to play through:\n  JACK: no JACK server is running"));
}
