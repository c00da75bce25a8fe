#pragma once

#include <compline/text/bad_input.hpp>
#include <compline/yaml/file_reading.hpp>
#include <compline/yaml/tree.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace compline::yaml {

/// Reports a `#` glued to what stands behind an unquoted value: YAML takes that for a comment.
void refuse_comment_behind(const TreeNode& node, const FileReading& reading);

/// Reports the keys that a map has twice; YAML itself would take one and drop the other.
void refuse_duplicate_keys(const TreeNode& map, const FileReading& reading);

/// A map whose keys are known words, such as a chart or one of its sections.
class MapReader {
  public:
    /// `what`: "chart" or "section", for messages. The references must outlive this object.
    MapReader(const TreeNode& map, std::string_view what, const FileReading& reading)
        : map_(map), what_(what), reading_(reading) {}

    /// Old names of keys, each with the one it has now.
    using Renamed = std::vector<std::pair<std::string_view, std::string_view>>;

    /// Reports the keys that are none of these, and those that stand twice.
    void check_keys(const std::vector<std::string>& known, const Renamed& renamed = {}) const;

    /// The value of a key; none when the map has none, or nothing behind the colon (reported).
    [[nodiscard]] const TreeNode* find(std::string_view key) const;
    /// The same; a key that is absent is reported with an example of one.
    [[nodiscard]] const TreeNode* require(std::string_view key, std::string_view example) const;

    /// Gives a text to a function that throws text::BadInput; nothing when the value is
    /// absent, no text, or not a good one.
    template <typename Value>
    [[nodiscard]] std::optional<Value> value_of(const TreeNode* node,
                                                Value (*reader)(std::string_view)) const {
        return read_one(node, reader);
    }
    /// So too to one that knows more than the text, such as the meter.
    template <typename Reader>
    [[nodiscard]] auto value_of(const TreeNode* node, const Reader& reader) const {
        return read_one(node, reader);
    }

  private:
    [[nodiscard]] std::string unknown_key(const TreeNode& key,
                                          const std::vector<std::string>& known,
                                          const Renamed& renamed) const;
    /// Whether the node is a text, which is what a single value is written as; reported if not.
    [[nodiscard]] bool is_one_value(const TreeNode& node) const;
    template <typename Reader>
    [[nodiscard]] auto read_one(const TreeNode* node, const Reader& reader) const
        -> std::optional<decltype(reader(std::string_view()))>;

    const TreeNode& map_;
    std::string_view what_;
    const FileReading& reading_;
};

template <typename Reader>
auto MapReader::read_one(const TreeNode* node, const Reader& reader) const
    -> std::optional<decltype(reader(std::string_view()))> {
    if (node == nullptr || !is_one_value(*node)) return std::nullopt;
    try {
        return reader(node->text);
    } catch (const text::BadInput& error) {
        reading_.problems.add(node->offset, error.what());
    }
    return std::nullopt;
}

}  // namespace compline::yaml
