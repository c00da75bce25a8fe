#include "table.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <thread>

namespace compline::bench {

namespace {

/// The processor's name as Linux tells it.
std::string processor() {
    std::ifstream info("/proc/cpuinfo");
    for (std::string line; std::getline(info, line);) {
        if (line.rfind("model name", 0) == 0) return line.substr(line.find(':') + 2);
    }
    return "processor unknown";
}

/// How many programs want a core at once, over the last minute; more than cores: figures suffer.
std::string busy() {
    double load = 0;
    if (::getloadavg(&load, 1) != 1) return "load unknown";
    return fmt::format("load {:.1f}", load);
}

}  // namespace

std::string spoken(time::Seconds duration) {
    const double s = duration.count();
    if (s < 1e-6) return fmt::format("{:.0f} ns", s * 1e9);
    if (s < 1e-3) return fmt::format("{:.2f} us", s * 1e6);
    if (s < 1.0) return fmt::format("{:.2f} ms", s * 1e3);
    return fmt::format("{:.2f} s", s);
}

void print_table(const std::vector<Row>& rows) {
    fmt::print("{}, {} cores, {}; {}\nRates are those of the fastest run.\n\n", processor(),
               std::thread::hardware_concurrency(), busy(), COMPLINE_COMPILER);
    fmt::print("| {:<46} | {:>9} | {:>9} | {:>9} | {:>6} | {:<38} |\n", "work", "fastest", "median",
               "slowest", "runs", "which is");
    fmt::print("|{:-<48}|{:->10}:|{:->10}:|{:->10}:|{:->7}:|{:-<40}|\n", "", "", "", "", "", "");
    for (const Row& row : rows) {
        fmt::print("| {:<46} | {:>9} | {:>9} | {:>9} | {:>6} | {:<38} |\n", row.work,
                   spoken(row.took.fastest()), spoken(row.took.median()),
                   spoken(row.took.slowest()), row.took.runs(), row.means);
    }
}

}  // namespace compline::bench
