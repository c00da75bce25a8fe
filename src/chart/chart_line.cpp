#include "chart_line.hpp"

namespace compline::chart {

std::vector<yaml::TextLine> chart_lines(const yaml::TreeNode& node, const yaml::SourceText& source,
                                        yaml::ProblemList& problems) {
    switch (yaml::scalar_form(node, source)) {
        case yaml::ScalarForm::in_a_fold:
            problems.add(node.offset,
                         "a block scalar that begins with > loses its line ends: begin it with |");
            return {};
        case yaml::ScalarForm::over_lines:
            problems.add(node.offset,
                         "YAML joins these lines into one, and the bars at their ends with them: "
                         "write | after the colon and the bars on the next lines");
            return {};
        case yaml::ScalarForm::in_a_block:
        case yaml::ScalarForm::as_it_stands:
            break;
    }
    if (const auto hash = yaml::comment_behind(node, source, false)) {
        problems.add(
            *hash,
            "YAML takes the rest of this line for a comment: put the line in quotes, or the "
            "bars in a block scalar (|); a comment goes on a line of its own");
    }
    return yaml::lines_of(node, source);
}

}  // namespace compline::chart
