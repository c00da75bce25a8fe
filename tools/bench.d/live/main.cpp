// Live practice, measured from outside: run it by `tools/bench live`. Figures are for README; no
// test looks at them.
#include "../../live.d/jack_server.hpp"
#include "benches.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <exception>
#include <iterator>
#include <optional>
#include <string_view>

using namespace compline;

namespace {

struct Part {
    std::string_view name;
    void (*measure)(bool quick);
};
constexpr Part parts[] = {
    {"start", bench::measure_start},           {"lateness", bench::measure_lateness},
    {"breakdowns", bench::measure_breakdowns}, {"kills", bench::measure_kills},
    {"flood", bench::measure_flood},           {"memory", bench::measure_memory}};

struct Asked {
    bool quick = false;
    std::string_view part;  ///< empty: all
};

/// Nothing: not what the usage says.
std::optional<Asked> read_arguments(int argc, char** argv) {
    Asked asked;
    for (int i = 1; i < argc; ++i) {
        const std::string_view word(argv[i]);
        const bool is_part = std::any_of(std::begin(parts), std::end(parts),
                                         [&](const Part& part) { return part.name == word; });
        if (word == "--quick") {
            asked.quick = true;
        } else if (is_part && asked.part.empty()) {
            asked.part = word;
        } else {
            return std::nullopt;
        }
    }
    return asked;
}

}  // namespace

int main(int argc, char** argv) {
    const auto asked = read_arguments(argc, argv);
    if (!asked) {
        fmt::print(
            stderr,
            "usage: bench live [PART] [--quick]  (a short look at whether all is there)\n"
            "PART: start, lateness, breakdowns, kills, flood or memory; without one all of them\n");
        return 2;
    }
    if (!outside::JackServer::installed()) {
        fmt::print(stderr, "bench: jackd is not installed (package jackd2)\n");
        return 1;
    }
    try {
        for (const auto& part : parts) {
            if (asked->part.empty() || asked->part == part.name) part.measure(asked->quick);
        }
    } catch (const std::exception& error) {
        fmt::print(stderr, "bench: {}\n", error.what());
        return 1;
    }
    return 0;
}
