#pragma once

#include "problem_list.hpp"
#include "source_text.hpp"
#include "yaml_tree.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace compline::chart {

/// A line of bars and where it stands in the file.
struct ChartLine {
    std::string text;
    std::size_t offset = 0;
    bool verbatim = true;  ///< false: quotes with escapes; every place in it is the quotes' place

    [[nodiscard]] std::size_t offset_at(std::size_t byte) const {
        return verbatim ? offset + byte : offset;
    }
};

/// The lines of a section's text: one for a text on one line, each line of a block scalar. Refuses
/// texts whose line ends YAML took away, and a text of which YAML took the end for a comment.
[[nodiscard]] std::vector<ChartLine> chart_lines(const YamlNode& node, const SourceText& source,
                                                 ProblemList& problems);

/// Where a byte of a text stands in the file.
[[nodiscard]] std::size_t offset_in_text(const YamlNode& node, std::size_t byte,
                                         const SourceText& source);

/// Reports a `#` that stands behind an unquoted text on its line. In a chart line any is refused;
/// elsewhere (`strict` false) only one that is followed by no blank, as in `title: Blues #2`.
void refuse_comment_behind(const YamlNode& node, const SourceText& source, ProblemList& problems,
                           bool strict);

}  // namespace compline::chart
