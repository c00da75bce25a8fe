#pragma once

#include "reading.hpp"
#include "yaml_tree.hpp"

#include <compline/chart/form.hpp>

#include <vector>

namespace compline::chart {

/// Reads the map of voicings: from where (a chord, bars, a chord in bars) to shapes. `form` is null
/// when what came before is wrong; then nobody can say whether bars and chords are there.
[[nodiscard]] std::vector<Pin> read_pins(const YamlNode& map, const Form* form,
                                         const Reading& reading);

}  // namespace compline::chart
