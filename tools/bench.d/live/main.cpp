// Live practice, measured from outside: run it by `tools/bench live`. Figures are for README; no
// test looks at them.
#include "../../live.d/jack_server.hpp"
#include "benches.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <string_view>

int main(int argc, char** argv) {
    const bool quick = argc == 2 && std::string_view(argv[1]) == "--quick";
    if (argc > 1 && !quick) {
        fmt::print(stderr, "usage: bench live [--quick]  (a short look at whether all is there)\n");
        return 2;
    }
    if (!compline::outside::JackServer::installed()) {
        fmt::print(stderr, "bench: jackd is not installed (package jackd2)\n");
        return 1;
    }
    try {
        compline::bench::measure_start(quick);
        compline::bench::measure_lateness(quick);
        compline::bench::measure_breakdowns(quick);
        compline::bench::measure_memory(quick);
    } catch (const std::exception& error) {
        fmt::print(stderr, "bench: {}\n", error.what());
        return 1;
    }
    return 0;
}
