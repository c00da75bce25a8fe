#pragma once

#include <compline/chart/chart.hpp>
#include <compline/yaml/file_reading.hpp>
#include <compline/yaml/tree.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::chart {

struct Sections {
    std::vector<Section> list;  ///< in the order of the file
    bool all_known = true;  ///< false: some have names that could not be read, or are not there yet
};

/// Reads the map of sections; `meter` is none when the chart's own is wrong.
[[nodiscard]] Sections read_sections(const yaml::TreeNode& map, std::optional<time::Meter> meter,
                                     const yaml::FileReading& reading);

}  // namespace compline::chart
