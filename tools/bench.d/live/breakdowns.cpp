#include "benches.hpp"
#include "trial.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <functional>

namespace compline::bench {

namespace {

using Breakdown = std::function<void(outside::JackServer&, jack::JackPlayer&)>;

/// Seconds from the breakdown, three seconds into the music, to the end of the program.
double to_the_end(const Breakdown& breakdown) {
    outside::JackServer server({256, 48000, false, false});
    Trial trial("JACK:", outside::FortyChanges::changes, {});
    (void)trial.to_first_click();
    ::usleep(3'000'000);
    const auto broke = Clock::now();
    breakdown(server, trial.player());
    (void)trial.report(time::Seconds(20));
    return since(broke).count();
}

void measure(const char* name, int runs, const Breakdown& breakdown) {
    std::vector<double> seconds;
    seconds.reserve(static_cast<std::size_t>(runs));
    for (int run = 0; run < runs; ++run) seconds.push_back(to_the_end(breakdown));
    fmt::print("  {:<28} {:.2f} to {:.2f} s\n", name,
               *std::min_element(seconds.begin(), seconds.end()),
               *std::max_element(seconds.begin(), seconds.end()));
    std::fflush(stdout);
}

}  // namespace

void measure_breakdowns(bool quick) {
    const int runs = quick ? 1 : 5;
    fmt::print("\nFrom a breakdown to the end of the program, take and report written; of {}:\n",
               runs);
    measure("the server is killed", runs,
            [](outside::JackServer& server, jack::JackPlayer&) { server.kill_hard(); });
    measure("the server's period changes", runs,
            [](outside::JackServer&, jack::JackPlayer& player) { player.set_buffer_size(128); });
}

}  // namespace compline::bench
