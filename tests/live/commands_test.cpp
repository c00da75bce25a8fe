// What a player asks for by keys while the band plays, on a JACK server: it is done, and the take
// knows it, whatever becomes of the program.

#include "live/jack_server.hpp"
#include "live/practice_process.hpp"
#include "live/steady_guitarist.hpp"

#include <fmt/format.h>

#include <csignal>
#include <variant>

using namespace compline;
using compline::jack::JackPlayer;
using tests::contains;
using tests::JackServer;
using tests::PracticeProcess;
using tests::Watched;
using time::Seconds;

namespace {

const std::string up = "\x1B[A";
const std::string down = "\x1B[B";
const std::string home = "\x1B[H";

/// A decision as a player would tell it, without its bar.
struct DecisionInWords {
    std::string operator()(const roadmap::NewTempo& to) const {
        return fmt::format("{}", to.tempo.count());
    }
    std::string operator()(const roadmap::LaysOut& rest) const {
        const auto& who = rest.who;
        const auto* const name = who.drums == who.bass ? "all" : who.drums ? "drums" : "bass";
        return fmt::format("{} {}", name, rest.out ? "out" : "in");
    }
    std::string operator()(const roadmap::NewWay& to) const {
        const auto& passage = to.way.stretches.front().passage;
        const bool row = passage.from % 4 == 1 && passage.to == passage.from + 3;
        return to.way.stretches.size() == 1 && row && to.way.goes_on ? "loop" : "on through";
    }
    std::string operator()(const roadmap::Paused&) const { return "pause"; }
    std::string operator()(const roadmap::Waited&) const { return "go on"; }
    std::string operator()(const roadmap::Stopped&) const { return "stop"; }
};

using Decided = std::vector<std::string>;

Decided decided_in(const practice::Take& take) {
    Decided decided;
    for (const auto& decision : take.info.value().decisions()) {
        decided.push_back(std::visit(DecisionInWords{}, decision.what));
    }
    return decided;
}

/// F7 on every second beat, a little late, as long as the tempo stays.
std::vector<jack::ScriptedMessage> steady_chords(double seconds) {
    std::vector<jack::ScriptedMessage> script;
    constexpr std::int64_t two_beats = 14400;
    for (std::int64_t at = 480; at < static_cast<std::int64_t>(seconds * 48000); at += two_beats) {
        for (const int note : {53, 57, 63}) {
            script.push_back({at, midi::note_on(1, note, 80)});
            script.push_back({at + 9600, midi::note_off(1, note)});
        }
    }
    return script;
}

/// `compline practice` on a terminal, in bars of 0.6 seconds, with a guitarist who plays to it.
class Keyboard {
  public:
    explicit Keyboard(const std::string& take) : player_({"guitarist", "", Seconds(1), 0.001F}) {
        ::setenv("TERM", "xterm", 1);
        ::setenv("NO_COLOR", "1", 1);
        player_.start(steady_chords(25));
        auto arguments = tests::to_player("guitarist", take);
        arguments.insert(arguments.end(), {"--tempo", "400", "--count-in", "1"});
        practice_.emplace(arguments, terminal_.inside());
        REQUIRE(player_.wait_for_click(Seconds(10)));
        REQUIRE(watched_.shows("space: pause"));
    }

    /// Until the program has it; then some time passes.
    void type(const std::string& keys, int then_ms) {
        terminal_.type(keys);
        const bool read = tests::comes_true([&] {
            watched_.look();
            return terminal_.waiting() == 0;
        });
        REQUIRE(read);
        ::usleep(static_cast<useconds_t>(then_ms) * 1000);
    }

    tests::Ran kill() {
        practice_->signal(SIGKILL);
        return practice_->wait(10);
    }
    tests::Ran wait() {
        const auto ran = practice_->wait(10);
        watched_.look();
        return ran;
    }
    [[nodiscard]] const std::string& seen() const { return watched_.seen; }

  private:
    tests::PseudoTerminal terminal_{80, 24};
    Watched watched_{terminal_};
    JackPlayer player_;
    std::optional<PracticeProcess> practice_;
};

tests::Ran score(const std::string& take) { return tests::run_compline({"score", take}); }

void check_renders(const std::string& take) {
    const auto ran = tests::run_compline({"render", take, take + ".wav"});
    INFO(tests::shown(ran));
    CHECK(ran.status == 0);
}

/// A take that was played to its end, with these decisions.
void check_whole(const std::string& path, const Decided& decided) {
    INFO(path);
    const auto take = tests::load_take(path);
    CHECK(decided_in(take) == decided);
    CHECK(take.info->ended);
    CHECK_FALSE(take.messages.empty());
    REQUIRE(take.info->machine);
    CHECK(take.info->machine->late_strokes == 0);
    const auto scored = score(path);
    CHECK(scored.status == 0);
    CHECK(scored.err.empty());
    check_renders(path);
}

/// Without the line that only who knows the chart's file can say.
std::string without_loop_command(std::string report) {
    const auto begin = report.find("         loop them: ");
    if (begin == std::string::npos) return report;
    return report.erase(begin, report.find('\n', begin) + 1 - begin);
}

}  // namespace

TEST_CASE("twenty keys while the band plays: all is done, and the takes say the same", "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    const tests::TemporaryFolder folder;
    const auto take = [&](const std::string& number) {
        return folder.file("take" + number + ".mid").string();
    };
    Keyboard keyboard(take(""));
    // Moments that have nothing to do with beats and bars, some of them twice within a bar.
    keyboard.type("b", 730);
    keyboard.type(up, 190);  // 400 is as fast as it gets
    keyboard.type("r", 930);
    keyboard.type(down, 410);
    keyboard.type("d", 610);
    keyboard.type(home, 1110);
    keyboard.type("L", 770);
    keyboard.type("b", 110);
    keyboard.type("d", 530);
    keyboard.type(" ", 910);
    keyboard.type(" ", 1390);
    keyboard.type("w", 370);
    keyboard.type(up, 290);
    keyboard.type(down, 670);
    keyboard.type("l", 910);
    keyboard.type("w", 430);
    keyboard.type("b", 590);
    keyboard.type(" ", 70);
    keyboard.type(" ", 1510);
    keyboard.type("q", 0);
    const auto ran = keyboard.wait();
    INFO(keyboard.seen() << tests::shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(keyboard.seen(), "no faster"));
    CHECK(contains(keyboard.seen(), "over again; what you played is in " + take("")));
    CHECK(contains(keyboard.seen(), "over again; what you played is in " + take("-2")));
    CHECK(contains(keyboard.seen(), "The take is in " + take("-3")));
    check_whole(take(""), {"bass out"});
    check_whole(take("-2"), {"384", "drums out"});
    check_whole(take("-3"),
                {"drums out", "loop", "bass out", "drums in", "pause", "go on", "on through", "399",
                 "383", "loop", "on through", "bass in", "pause", "go on", "stop"});
    CHECK(contains(ran.out, " strums; "));
    CHECK(without_loop_command(ran.out) == score(take("-3")).out);
}

namespace {

/// Keys, and then the program is killed.
struct Killed {
    std::vector<std::string> keys;
    int then_ms;  ///< after the last of them
    Decided decided;
    std::string take;  ///< the one that was cut short
};

}  // namespace

TEST_CASE("killed after any key, the program leaves a take with all that was decided", "[live]") {
    if (!JackServer::installed()) return;
    const std::vector<Killed> runs = {
        {{down, "l"}, 70, {"384", "loop"}, "take.mid"},
        {{"d", " "}, 1100, {"drums out", "pause"}, "take.mid"},  // in the pause
        {{" ", " "}, 70, {"pause", "go on"}, "take.mid"},        // in the wait
        {{"l", "b", "w"}, 370, {"loop", "bass out", "on through"}, "take.mid"},
        {{"d", home}, 530, {"drums out"}, "take-2.mid"}};
    for (const auto& run : runs) {
        INFO(run.keys.front() << run.keys.back());
        JackServer server({256, 48000, false, false});
        const tests::TemporaryFolder folder;
        const auto path = folder.file(run.take).string();
        {
            Keyboard keyboard(folder.file("take.mid").string());
            for (const auto& key : run.keys) {
                keyboard.type(key, &key == &run.keys.back() ? run.then_ms : 330);
            }
            CHECK(keyboard.kill().status == 128 + SIGKILL);
        }
        server.kill_hard();  // it would wait for the dead, ten seconds long
        const auto take = tests::load_take(path);
        CHECK(decided_in(take) == run.decided);
        CHECK_FALSE(take.info->ended);
        const auto scored = score(path);
        INFO(tests::shown(scored));
        CHECK(scored.status == 0);
        CHECK(contains(scored.err, "the take was cut short"));
        check_renders(path);
        if (run.take != "take.mid") {
            check_whole(folder.file("take.mid").string(), run.decided);
        }
    }
}
