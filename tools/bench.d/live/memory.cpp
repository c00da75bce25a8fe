#include "benches.hpp"
#include "held.hpp"
#include "trial.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdio>

namespace compline::bench {

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
