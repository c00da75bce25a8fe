#pragma once

#include "problem_list.hpp"
#include "source_text.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace compline::chart {

struct YamlEntry;

/// A value of a YAML file and where it starts.
struct YamlNode {
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
    std::vector<YamlNode> items;
    std::vector<YamlEntry> entries;  ///< in the order of the file
};

/// A key of a map and what it stands for.
struct YamlEntry {
    YamlNode key;
    YamlNode value;
};

/// "a list", "a map of keys", "a text" or "nothing", for messages.
[[nodiscard]] std::string kind_name(const YamlNode& node);

struct YamlTree {
    std::optional<YamlNode> root;
    bool complete = true;  ///< false: an error ended the reading, the rest of the file is not here
};

/// Reads a file's one YAML document by events, so that an alias is seen and refused, never
/// followed, and nesting stops at a depth of 8. Anchors, tags, a second document and malformed
/// YAML become problems.
[[nodiscard]] YamlTree read_yaml_tree(const SourceText& source, ProblemList& problems);

}  // namespace compline::chart
