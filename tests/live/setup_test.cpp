// Setting up live: a player at a terminal, from the first question to the first verdict.

#include "live/jack_server.hpp"
#include "live/practice_process.hpp"
#include "live/steady_guitarist.hpp"

#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>

using namespace compline;
using compline::jack::JackPlayer;
using tests::JackServer;
using tests::PracticeProcess;
using time::Seconds;

namespace {

/// The low E, open, every six tenths of a second.
std::vector<jack::ScriptedMessage> low_e(double seconds) {
    std::vector<jack::ScriptedMessage> script;
    for (std::int64_t at = 480; at < static_cast<std::int64_t>(seconds * 48000); at += 28800) {
        script.push_back({at, midi::note_on(6, 40, 80)});
        script.push_back({at + 24000, midi::note_off(6, 40)});
    }
    return script;
}

/// Somebody at a terminal who answers as he is asked.
class AtTheTerminal {
  public:
    AtTheTerminal() {
        ::setenv("TERM", "dumb", 1);
        setup_.emplace(std::vector<std::string>{}, terminal_.inside(), "setup");
    }

    /// Waits until that is shown behind what was answered last, then types a line.
    void answer(const std::string& question, const std::string& line) {
        INFO(watched_.seen);
        REQUIRE(sees(question));
        answered_ = watched_.seen.size();
        terminal_.type(line + "\n");
    }
    [[nodiscard]] bool sees(const std::string& text) {
        return tests::comes_true([&] {
            watched_.look();
            return watched_.seen.find(text, answered_) != std::string::npos;
        });
    }
    void press(const std::string& key) const { terminal_.type(key); }
    PracticeProcess& setup() { return *setup_; }
    const std::string& seen() {
        watched_.look();
        return watched_.seen;
    }

  private:
    tests::PseudoTerminal terminal_{80, 24};
    tests::Watched watched_{terminal_};
    std::size_t answered_ = 0;
    std::optional<PracticeProcess> setup_;
};

}  // namespace

TEST_CASE("a player sets up at a terminal, answers wrongly once each, and reads a first verdict",
          "[live]") {
    if (!JackServer::installed()) return;
    const JackServer server;
    JackPlayer player({"guitarist", "", Seconds(1), 0.0001F});
    player.start(low_e(30));
    AtTheTerminal he;
    for (const auto& [question, wrong, right] :
         std::vector<std::array<std::string, 3>>{{"open strings", "E2 H2", ""},
                                                 {"A capo", "twelve", ""},
                                                 {"left-handed", "perhaps", ""},
                                                 {"with fingers", "teeth", "fingers"},
                                                 {"heard by", "9", "guitarist"}}) {
        he.answer(question, wrong);
        he.answer(question, right);
    }
    he.answer("Four bars", "now");
    he.answer("Four bars", "");
    REQUIRE(player.wait_for_click(Seconds(10)));
    he.press("\n");
    he.answer("Do you hear it?", "what");
    he.answer("Do you hear it?", "");
    he.answer("hear your own guitar", "ears");
    he.answer("hear your own guitar", "interface");
    he.answer("MIDI can come in", "no idea");
    he.answer("MIDI can come in", "guitarist");
    he.answer("Shall we see", "what");
    he.answer("Shall we see", "");
    CHECK(he.sees("string 6: E2, in tune, on channel 6"));
    for (int string = 5; string >= 1; --string) {
        he.answer("String " + std::to_string(string), "-");
    }
    he.answer("a soft strum", "-");
    he.answer("as hard a one", "-");
    he.answer("How many semitones", "many");
    he.answer("How many semitones", "12");
    he.answer("wire, guitar, click or later", "tape");
    he.answer("wire, guitar, click or later", "");
    he.answer("MIDI pedal", "two");
    he.answer("MIDI pedal", "");
    he.answer("rows or large", "huge");
    he.answer("rows or large", "");
    he.answer("Write it to", "");
    he.answer("with the band, once through", "");
    REQUIRE(he.sees("count-in"));
    ::usleep(6'700'000);  // two bars of count-in, and the first chord judged
    he.press("q");
    const auto ran = he.setup().wait(10);
    INFO(he.seen() << tests::shown(ran));
    CHECK(ran.status == 0);
    CHECK(he.setup().settings() ==
          "right-hand: fingers\nout: \"JACK:guitarist\"\nmidi-pickup: \"bend=12\"\n");
    CHECK(tests::contains(he.seen(), "(Enter goes on) \nstring 6: E2"));
    CHECK(tests::contains(ran.out, "F7 | Bb7 | F7 | C7"));
    // A busy machine may leave it uncertain.
    CHECK(tests::contains(ran.out, "\nChanges  "));
    CHECK_FALSE(tests::contains(ran.out, "none were due"));
    CHECK(tests::contains(he.seen(), "compline practice mine.yaml"));
}

TEST_CASE("who stops at a question has changed nothing", "[app]") {
    for (const bool by_signal : {true, false}) {
        AtTheTerminal he;
        he.answer("open strings", "D2 A2 D3 G3 B3 E4");
        REQUIRE(he.sees("A capo"));
        by_signal ? he.setup().signal(SIGINT) : he.press("\x04");
        const auto ran = he.setup().wait(10);
        INFO(he.seen());
        CHECK(ran.status == 0);
        CHECK(tests::contains(he.seen(), "Stopped: nothing was written."));
        CHECK(he.setup().settings() == "none");
    }
}
