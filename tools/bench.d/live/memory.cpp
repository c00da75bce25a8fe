#include "benches.hpp"
#include "trial.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <fstream>
#include <stdexcept>

namespace compline::bench {

namespace {

/// What a process holds, in MB: its own, and what it shares with the JACK server, which is the
/// server's (every client maps all of its port buffers).
struct Held {
    double own = 0;
    double shared = 0;
};

Held held_by(pid_t process) {
    std::ifstream status(fmt::format("/proc/{}/status", process));
    Held held;
    bool found = false;
    double kilobytes = 0;
    for (std::string word; status >> word;) {
        if (word == "RssAnon:" || word == "RssFile:") {
            if (status >> kilobytes) held.own += kilobytes / 1024;
            found = true;
        } else if (word == "RssShmem:" && status >> kilobytes) {
            held.shared = kilobytes / 1024;
        }
    }
    if (!found) throw std::runtime_error("the program ended before its time");
    return held;
}

}  // namespace

void measure_memory(bool quick) {
    const int seconds = quick ? 20 : 600;
    const outside::JackServer server;
    Trial trial("JACK:", seconds * 10 / 3, {});
    (void)trial.to_first_click();
    std::vector<double> own;
    Held last;
    for (int second = 0; second < seconds; ++second) {
        ::usleep(1'000'000);
        last = held_by(trial.program().process());
        own.push_back(last.own);
    }
    trial.program().signal(SIGINT);
    const auto report = trial.report(time::Seconds(20));
    fmt::print(
        "\nMemory over {} s and {} changes: {:.1f} MB after 10 s, {:.1f} at the end, {:.1f} at "
        "most; "
        "besides {:.0f} MB\nthat are the JACK server's, which every client shares.\n",
        seconds, report.at("changes").size(), own[9], own.back(),
        *std::max_element(own.begin(), own.end()), last.shared);
}

}  // namespace compline::bench
