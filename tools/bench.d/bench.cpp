// What matters in use, measured: run it by tools/bench. Figures are for README and for comparing
// two versions on one machine; no test looks at them.
#include "table.hpp"

#include <compline/time/timeline.hpp>

#include <fmt/format.h>

using namespace compline;

namespace {

/// A groove is asked for the time of each eighth of a long tune.
bench::Row eighths_on_the_time_line() {
    constexpr int eighths = 100'000;
    const time::Groove groove{time::Timeline(time::Bpm(132)), time::Swing::at(time::Bpm(132))};
    const bench::Measurement took = bench::measure([&] {
        time::Seconds sum;
        for (int i = 0; i < eighths; ++i) sum += groove.time_of(time::Ticks(480) * i);
        bench::keep(sum);
    });
    return {fmt::format("time of {} swung eighths", eighths), took,
            fmt::format("{:.1f} ns each", took.median().count() / eighths * 1e9)};
}

}  // namespace

int main() {
    bench::print_table({eighths_on_the_time_line()});
    return 0;
}
