#pragma once

#include <compline/yaml/file_reading.hpp>
#include <compline/yaml/text_lines.hpp>
#include <compline/yaml/tree.hpp>

#include <cstddef>
#include <vector>

namespace compline::chart {

/// The lines of bars: a text, or a list of texts; what is neither is reported. `place` is where an
/// empty list item is reported.
[[nodiscard]] std::vector<yaml::TextLine> lines_of_bars(const yaml::TreeNode& bars,
                                                        std::size_t place,
                                                        const yaml::FileReading& reading);

}  // namespace compline::chart
