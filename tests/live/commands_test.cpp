// What a player asks for by keys while the band plays, on a JACK server: it is done, and the take
// knows it, whatever becomes of the program.

#include "live/jack_server.hpp"
#include "live/keyboard.hpp"

#include <fmt/format.h>

#include <array>
#include <csignal>
#include <variant>

using namespace compline;
using tests::contains;
using tests::down;
using tests::home;
using tests::JackServer;
using tests::Key;
using tests::Keyboard;
using tests::up;

namespace {

/// At moments that have nothing to do with beats and bars, some of them twice within a bar.
const std::array<Key, 20> twenty_keys = {
    {{"b", 730}, {up, 190},  // 400 is as fast as it gets
     {"r", 930}, {down, 410}, {"d", 610},  {home, 1110}, {"L", 770},  {"b", 110},
     {"d", 530}, {" ", 910},  {" ", 1390}, {"w", 370},   {up, 290},   {down, 670},
     {"l", 910}, {"w", 430},  {"b", 590},  {" ", 70},    {" ", 1510}, {"q", 0}}};

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
    std::string operator()(const roadmap::LadderStep&) const { return "ladder"; }
};

using Decided = std::vector<std::string>;

Decided decided_in(const practice::Take& take) {
    Decided decided;
    for (const auto& decision : take.info.value().decisions()) {
        decided.push_back(std::visit(DecisionInWords{}, decision.what));
    }
    return decided;
}

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
    for (const auto* command : {"         loop them", "\nNext     "}) {
        const auto begin = report.find(command);
        if (begin != std::string::npos) report.erase(begin);
    }
    return report;
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
    for (const auto& key : twenty_keys) keyboard.type(key.is, key.then_ms);
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
    const auto scored = tests::run_compline({"score", take("-3"), "--all"});
    CHECK(without_loop_command(ran.out) == scored.out);
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
