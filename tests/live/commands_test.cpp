// What a player asks for by keys while the band plays, on a JACK server: it is done, and the take
// knows it, whatever becomes of the program.

#include "live/jack_server.hpp"
#include "live/practice_process.hpp"
#include "live/steady_guitarist.hpp"

#include <compline/sound/wav.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <csignal>
#include <optional>
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

struct Key {
    std::string is;
    int then_ms;  ///< until the next
};

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
    /// `room`: so much is recorded of what is heard, from the first click on.
    explicit Keyboard(const std::string& take, Seconds room = Seconds(1))
        : player_({"guitarist", "", room, 0.001F}) {
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
        auto ran = practice_->wait(10);
        watched_.look();
        return ran;
    }
    [[nodiscard]] const std::string& seen() const { return watched_.seen; }
    [[nodiscard]] const JackPlayer& player() const { return player_; }

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
    CHECK(without_loop_command(ran.out) == score(take("-3")).out);
}

namespace {

/// In one take, from its first click on.
const std::array<Key, 20> twenty_more = {
    {{"b", 730}, {down, 190}, {"d", 410}, {down, 610}, {"L", 770},  {"b", 110}, {"d", 530},
     {" ", 910}, {" ", 1390}, {"w", 370}, {up, 290},   {down, 670}, {"l", 910}, {"d", 270},
     {"w", 430}, {"b", 290},  {"b", 350}, {"d", 70},   {up, 610},   {"q", 0}}};

/// From its first click on, by the measure by which the player finds it.
sound::Stereo rendered(const std::string& take) {
    const auto wav = take + ".wav";
    const auto ran = tests::run_compline({"render", take, wav, "--bits", "float"});
    INFO(tests::shown(ran));
    REQUIRE(ran.status == 0);
    auto sound = sound::read_wav(wav).sound;
    std::ptrdiff_t click = 0;
    const auto is_heard = [](float sample) { return std::fabs(sample) > 0.001F; };
    while (!is_heard(sound.left.at(static_cast<std::size_t>(click))) &&
           !is_heard(sound.right.at(static_cast<std::size_t>(click))))
        ++click;
    sound.left.erase(sound.left.begin(), sound.left.begin() + click);
    sound.right.erase(sound.right.begin(), sound.right.begin() + click);
    return sound;
}

/// The first frame of so many on which they differ.
std::optional<std::size_t> first_other(const sound::Stereo& one, const sound::Stereo& two,
                                       std::size_t frames) {
    REQUIRE(one.left.size() >= frames);
    REQUIRE(two.left.size() >= frames);
    for (std::size_t i = 0; i < frames; ++i) {
        if (one.left[i] != two.left[i] || one.right[i] != two.right[i]) return i;
    }
    return std::nullopt;
}

}  // namespace

TEST_CASE("an evening with twenty keys is heard on the server as its take is rendered, every frame",
          "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server({256, 48000, false, true});  // patient: no cycle is lost
    const tests::TemporaryFolder folder;
    const auto path = folder.file("take.mid").string();
    Keyboard keyboard(path, Seconds(25));
    for (const auto& key : twenty_more) keyboard.type(key.is, key.then_ms);
    const auto ran = keyboard.wait();
    INFO(keyboard.seen() << tests::shown(ran));
    REQUIRE(ran.status == 0);
    const auto take = tests::load_take(path);
    CHECK(take.info->decisions().size() > 14);
    CHECK(take.info->machine->late_strokes == 0);
    REQUIRE(keyboard.player().jumps() == 0);
    // A bar is counted in; the last notes of who stops are cut off where he stops.
    const auto until = Seconds(0.6) + take.end - Seconds(0.1);
    const auto frames = static_cast<std::size_t>(until.count() * 48000);
    CHECK(frames > std::size_t{8} * 48000);
    CHECK(first_other(keyboard.player().recording(), rendered(path), frames) == std::nullopt);
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
