#include <compline/chart/summary.hpp>

#include <fmt/format.h>

namespace compline::chart {

namespace {

std::string feel_in_words(const Chart& chart) {
    if (chart.feel() == Feel::straight) return "straight";
    return fmt::format("swing {}{:.2f}:1", chart.swing_ratio ? "" : "auto, ",
                       chart.swing_at(chart.tempo).ratio());
}

std::string counted(std::size_t n, const char* what) {
    return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

}  // namespace

std::string summary(const Form& form) {
    const Chart& chart = form.chart;
    return fmt::format("{} · {} · {}/4 · {:g} bpm · {} · {} · {}", chart.title, chart.key.name(),
                       chart.meter.beats(), chart.tempo.count(), feel_in_words(chart),
                       counted(form.bars.size(), "bar"),
                       counted(static_cast<std::size_t>(number_of_changes(form)), "change"));
}

}  // namespace compline::chart
