#pragma once

// A guitarist outside of the program, who plays a note every tenth of a second to what he hears,
// and what is typed and seen on a terminal meanwhile.

#include "../../tools/jack_player.d/jack_player.hpp"
#include "app/program.hpp"
#include "app/pseudo_terminal.hpp"

#include <compline/midi/smf.hpp>
#include <compline/practice/take.hpp>

#include <unistd.h>

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace compline::tests {

/// A note every tenth of a second; which one tells when it was sent.
constexpr int frames_a_note = 4800;
constexpr int notes = 48;
inline int note_of(std::size_t index) { return 40 + static_cast<int>(index % notes); }

inline std::vector<jack::ScriptedMessage> steady_notes(double seconds) {
    std::vector<jack::ScriptedMessage> script;
    const auto count = static_cast<std::size_t>(seconds * 48000 / frames_a_note);
    for (std::size_t i = 0; i < count; ++i) {
        const auto at = static_cast<std::int64_t>(i) * frames_a_note;
        script.push_back({at + 10, midi::note_on(1, note_of(i), 80)});
        script.push_back({at + 4000, midi::note_off(1, note_of(i))});
    }
    return script;
}

inline bool comes_true(const std::function<bool()>& condition, double seconds = 10) {
    for (int turn = 0; turn < static_cast<int>(seconds * 100); ++turn) {
        if (condition()) return true;
        ::usleep(10'000);
    }
    return false;
}

inline practice::Take load_take(const std::string& path) {
    return practice::read_take(midi::read_smf(files::load_bytes(path)).file);
}

inline std::vector<std::string> to_player(const std::string& name, const std::string& take) {
    // What plays there sends its notes without having to find them first.
    return {blues(),  "--out", "JACK:" + name,  "--in",    "jack:" + name,
            "--take", take,    "--midi-pickup", "cycles=0"};
}

/// What a program shows on a terminal, all of it.
struct Watched {
    const PseudoTerminal& terminal;
    std::string seen{};

    void look() { seen += terminal.received(); }

    /// Whether it shows that before long.
    bool shows(const std::string& text) {
        return comes_true([&] {
            look();
            return contains(seen, text);
        });
    }
};

}  // namespace compline::tests
