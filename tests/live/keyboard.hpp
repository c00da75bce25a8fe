#pragma once

#include "live/practice_process.hpp"
#include "live/steady_guitarist.hpp"

#include <csignal>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

namespace compline::tests {

inline const std::string up = "\x1B[A";
inline const std::string down = "\x1B[B";
inline const std::string home = "\x1B[H";

/// A key, and how long until the next.
struct Key {
    std::string is;
    int then_ms;
};

/// F7 on every second beat, a little late, as long as the tempo stays.
inline std::vector<jack::ScriptedMessage> steady_chords(double seconds) {
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
    explicit Keyboard(const std::string& take, time::Seconds room = time::Seconds(1))
        : player_({"guitarist", "", room, 0.001F}) {
        ::setenv("TERM", "xterm", 1);
        ::setenv("NO_COLOR", "1", 1);
        player_.start(steady_chords(25));
        auto arguments = to_player("guitarist", take);
        arguments.insert(arguments.end(), {"--tempo", "400", "--count-in", "1", "--all"});
        practice_.emplace(arguments, terminal_.inside());
        REQUIRE(player_.wait_for_click(time::Seconds(10)));
        REQUIRE(watched_.shows("space: pause"));
    }

    /// Until the program has it; then some time passes.
    void type(const std::string& keys, int then_ms) {
        terminal_.type(keys);
        const bool read = comes_true([&] {
            watched_.look();
            return terminal_.waiting() == 0;
        });
        REQUIRE(read);
        ::usleep(static_cast<useconds_t>(then_ms) * 1000);
    }

    Ran kill() {
        practice_->signal(SIGKILL);
        return practice_->wait(10);
    }
    Ran wait() {
        auto ran = practice_->wait(10);
        watched_.look();
        return ran;
    }
    [[nodiscard]] const std::string& seen() const { return watched_.seen; }
    [[nodiscard]] const jack::JackPlayer& player() const { return player_; }

  private:
    PseudoTerminal terminal_{80, 24};
    Watched watched_{terminal_};
    jack::JackPlayer player_;
    std::optional<PracticeProcess> practice_;
};

}  // namespace compline::tests
