#pragma once

#include <compline/yaml/problem_list.hpp>
#include <compline/yaml/source_text.hpp>
#include <compline/yaml/text_lines.hpp>
#include <compline/yaml/tree.hpp>

#include <vector>

namespace compline::chart {

/// The lines of a section's text. Refuses texts whose line ends YAML took away, and a text of which
/// YAML took the end for a comment.
[[nodiscard]] std::vector<yaml::TextLine> chart_lines(const yaml::TreeNode& node,
                                                      const yaml::SourceText& source,
                                                      yaml::ProblemList& problems);

}  // namespace compline::chart
