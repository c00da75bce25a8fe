#pragma once

#include <compline/chart/form.hpp>
#include <compline/yaml/file_reading.hpp>
#include <compline/yaml/tree.hpp>

#include <vector>

namespace compline::chart {

/// Reads the map of words over bars: `cues: {"A:1": drums break}`. `form` is null where there is
/// none to name bars of.
[[nodiscard]] std::vector<CueWords> read_cues(const yaml::TreeNode& map, const Form* form,
                                              const yaml::FileReading& reading);

}  // namespace compline::chart
