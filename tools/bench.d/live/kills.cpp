#include "app/pseudo_terminal.hpp"
#include "benches.hpp"
#include "trial.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

namespace compline::bench {

namespace {

struct Key {
    const char* is;
    int then_ms;
};

/// All that can be asked for while one plays, at moments that have nothing to do with beats.
constexpr std::array<Key, 20> keys = {{{"b", 230}, {"\x1B[A", 190}, {"r", 430}, {"\x1B[B", 310},
                                       {"d", 210}, {"\x1B[H", 510}, {"L", 270}, {"b", 110},
                                       {"d", 330}, {" ", 310},      {" ", 590}, {"w", 170},
                                       {"l", 290}, {"\x1B[B", 270}, {"w", 310}, {"\x1B[A", 130},
                                       {"b", 190}, {" ", 70},       {" ", 410}, {"d", 90}}};

/// Reads what the program shows: it would wait for a terminal that is full.
void pass(const tests::PseudoTerminal& terminal, int milliseconds) {
    const auto until = Clock::now() + std::chrono::milliseconds(milliseconds);
    while (Clock::now() < until) {
        (void)terminal.received();
        ::usleep(2'000);
    }
}

struct Takes {
    int found = 0;
    int scored = 0;
    int rendered = 0;
};

bool succeeds(const std::vector<std::string>& arguments, const std::filesystem::path& folder) {
    std::vector<std::string> words{COMPLINE_PROGRAM};
    words.insert(words.end(), arguments.begin(), arguments.end());
    outside::BackgroundProgram program(words, {folder / "said", folder / "complained", {}});
    return program.wait(60) == 0;
}

void look_at_takes(const std::filesystem::path& folder, Takes& takes) {
    std::vector<std::string> paths;
    for (const auto& file : std::filesystem::directory_iterator(folder)) {
        if (file.path().extension() == ".mid") paths.push_back(file.path().string());
    }
    for (const auto& path : paths) {
        ++takes.found;
        takes.scored += succeeds({"score", path}, folder);
        takes.rendered += succeeds({"render", path, path + ".wav"}, folder);
    }
}

/// The program is killed right after so many keys.
void kill_after(std::size_t count, Takes& takes) {
    const tests::PseudoTerminal terminal(80, 24);
    Trial trial("JACK:", outside::FortyChanges::changes, {}, time::Seconds(0), terminal.inside());
    (void)trial.to_first_click();
    pass(terminal, 700);
    for (std::size_t i = 0; i < count; ++i) {
        terminal.type(keys.at(i).is);
        pass(terminal, i + 1 < count ? keys.at(i).then_ms : keys.at(i).then_ms / 5);
    }
    trial.program().signal(SIGKILL);
    (void)trial.program().wait(10);
    look_at_takes(trial.take().parent_path(), takes);
}

}  // namespace

void measure_kills(bool quick) {
    ::setenv("TERM", "xterm", 1);
    // One for all: those that are not ended in order, here with dead clients, fill jackd's
    // registry.
    outside::JackServer server({256, 48000, false, false});
    Takes takes;
    const std::size_t step = quick ? 5 : 1;
    for (auto count = step; count <= keys.size(); count += step) kill_after(count, takes);
    server.kill_hard();  // it would wait for the dead
    fmt::print(
        "\nKilled (SIGKILL) after {} keys of an evening, a run each: {} takes, {} scored, {} "
        "rendered\n",
        quick ? "5, 10, 15 and 20" : "1 to 20", takes.found, takes.scored, takes.rendered);
    std::fflush(stdout);
}

}  // namespace compline::bench
