#pragma once

#include <compline/yaml/problem_list.hpp>
#include <compline/yaml/source_text.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace compline::yaml {

struct Entry;

/// A value of a YAML file and where it starts.
struct TreeNode {
    enum class Kind {
        nothing,  ///< empty, ~ or null
        text,
        list,
        map,
        refused  ///< an alias, or a text with an anchor or a tag: its problem is reported already
    };
    Kind kind = Kind::nothing;
    std::size_t offset = 0;
    std::string text;
    bool plain = false;  ///< a text without quotes that is no block scalar
    bool flow = false;   ///< a list or map written with brackets
    std::vector<TreeNode> items;
    std::vector<Entry> entries;  ///< in the order of the file
};

/// A key of a map and what it stands for.
struct Entry {
    TreeNode key;
    TreeNode value;
};

/// "a list", "a map of keys", "a text" or "nothing", for messages.
[[nodiscard]] std::string kind_name(const TreeNode& node);

struct Tree {
    std::optional<TreeNode> root;
    bool complete = true;  ///< false: an error ended the reading, the rest of the file is not here
};

/// Reads a file's one YAML document by events, so that an alias is seen and refused, never
/// followed, and nesting stops at a depth of 8. Anchors, tags, a second document and malformed
/// YAML become problems.
[[nodiscard]] Tree read_tree(const SourceText& source, ProblemList& problems);

}  // namespace compline::yaml
