#include "benches.hpp"

#include <compline/time/timeline.hpp>

#include <fmt/format.h>

namespace compline::bench {

std::vector<Row> time_line(Pace pace) {
    constexpr int eighths = 100'000;
    const time::Groove groove{time::Timeline(time::Bpm(132)), time::Swing::at(time::Bpm(132))};
    const auto took = measure(pace, [&] {
        time::Seconds sum;
        for (int i = 0; i < eighths; ++i) sum += groove.time_of(time::eighth_note * i);
        keep(sum);
    });
    return {{fmt::format("time of {} swung eighths", eighths), took,
             fmt::format("{:.1f} ns each", took.fastest().count() / eighths * 1e9)}};
}

}  // namespace compline::bench
