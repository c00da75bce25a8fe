#include "benches.hpp"
#include "trial.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <csignal>
#include <cstdio>

namespace compline::bench {

void measure_start(bool quick) {
    const int runs = quick ? 2 : 11;
    const outside::JackServer server;
    std::vector<double> seconds;
    for (int run = 0; run < runs; ++run) {
        Trial trial("JACK:", 8, {});
        seconds.push_back(trial.to_first_click().count());
        trial.program().signal(SIGINT);
        (void)trial.report(time::Seconds(20));
    }
    std::sort(seconds.begin(), seconds.end());
    fmt::print("\nFrom the command to the first click: {:.2f} s (median of {}; {:.2f} to {:.2f})\n",
               seconds[seconds.size() / 2], runs, seconds.front(), seconds.back());
    std::fflush(stdout);
}

}  // namespace compline::bench
