#pragma once

#include "reading.hpp"
#include "yaml_tree.hpp"

namespace compline::chart {

/// Reports the keys that a map has twice; YAML itself would take one and drop the other.
void refuse_duplicate_keys(const YamlNode& map, const Reading& reading);

}  // namespace compline::chart
