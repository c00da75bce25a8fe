#pragma once

#include <compline/chart/chart.hpp>

#include <string>

namespace compline::chart {

/// A chart as YAML that read_chart() reads as the same chart again: every section four bars a line,
/// chords in plain letters, what is as usual left out. Comments and the writer's own layout are
/// not kept.
[[nodiscard]] std::string write_chart(const Chart& chart);

/// Bars as they stand in a section of that meter (as it is written): "F7 | Bb7! / /&! /".
[[nodiscard]] std::string write_bar(const WrittenBar& bar, time::Meter meter);

}  // namespace compline::chart
