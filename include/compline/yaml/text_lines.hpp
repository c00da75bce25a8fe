#pragma once

#include <compline/yaml/problem_list.hpp>
#include <compline/yaml/source_text.hpp>
#include <compline/yaml/tree.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace compline::yaml {

// Where a text's letters stand in the file. YAML folds, unquotes and cuts; what is said of a word
// within a value is to name the line and column that the writer sees.

/// A line of a text and where it stands in the file.
struct TextLine {
    std::string text;
    std::size_t offset = 0;
    bool verbatim = true;  ///< false: quotes with escapes; every place in it is the quotes' place

    [[nodiscard]] std::size_t offset_at(std::size_t byte) const {
        return verbatim ? offset + byte : offset;
    }
};

/// How a text is written.
enum class ScalarForm {
    as_it_stands,  ///< plain on one line, or in quotes
    over_lines,    ///< plain over several lines, which YAML joins
    in_a_block,    ///< a block scalar that keeps its lines: |
    in_a_fold,     ///< a block scalar that loses them: >
};
[[nodiscard]] ScalarForm scalar_form(const TreeNode& node, const SourceText& source);

/// The lines of a text: one for a text on one line, each line of a block scalar.
[[nodiscard]] std::vector<TextLine> lines_of(const TreeNode& node, const SourceText& source);

/// Where a byte of a text stands in the file.
[[nodiscard]] std::size_t offset_in_text(const TreeNode& node, std::size_t byte,
                                         const SourceText& source);

/// Where a `#` stands behind an unquoted text on its line, none when there is none. `glued`: only
/// one that is followed by no blank, as in `title: Blues #2`.
[[nodiscard]] std::optional<std::size_t> comment_behind(const TreeNode& node,
                                                        const SourceText& source, bool glued);

}  // namespace compline::yaml
