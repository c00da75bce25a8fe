// What matters in use, measured: run it by tools/bench. Figures are for README and for comparing
// two versions on one machine; no test looks at them.
#include "benches.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <string_view>

using namespace compline;

namespace {

int measure_all(bench::Pace pace) {
    std::vector<bench::Row> rows;
    for (const auto part :
         {bench::rendering, bench::blocks, bench::scoring, bench::reading, bench::time_line}) {
        for (auto& row : part(pace)) rows.push_back(std::move(row));
    }
    bench::print_table(rows);
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    const bool quick = argc == 2 && std::string_view(argv[1]) == "--quick";
    if (argc > 1 && !quick) {
        fmt::print(stderr, "usage: bench [--quick]  (a few runs of each: is everything there?)\n");
        return 2;
    }
    try {
        return measure_all(quick ? bench::Pace::quick : bench::Pace::thorough);
    } catch (const std::exception& error) {
        fmt::print(stderr, "bench: {}\n", error.what());
        return 1;
    }
}
