#pragma once

#include <compline/chart/form.hpp>
#include <compline/yaml/file_reading.hpp>
#include <compline/yaml/tree.hpp>

#include <vector>

namespace compline::chart {

/// Reads the map of voicings: from where (a chord, bars, a chord in bars) to shapes. `form` is null
/// when what came before is wrong; then nobody can say whether bars and chords are there.
[[nodiscard]] std::vector<Pin> read_pins(const yaml::TreeNode& map, const Form* form,
                                         const yaml::FileReading& reading);

}  // namespace compline::chart
