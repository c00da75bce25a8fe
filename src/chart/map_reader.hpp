#pragma once

#include "chart_line.hpp"
#include "reading.hpp"
#include "values.hpp"
#include "yaml_tree.hpp"

#include <compline/chart/read_manner.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace compline::chart {

/// Reports the keys that a map has twice; YAML itself would take one and drop the other.
void refuse_duplicate_keys(const YamlNode& map, const Reading& reading);

/// A map whose keys are known words: the chart's own, or a section's.
class MapReader {
  public:
    /// `what`: "chart" or "section", for messages. The references must outlive this object.
    MapReader(const YamlNode& map, std::string_view what, const Reading& reading)
        : map_(map), what_(what), reading_(reading) {}

    /// Old names of keys, each with the one it has now.
    using Renamed = std::vector<std::pair<std::string_view, std::string_view>>;

    /// Reports the keys that are none of these, and those that stand twice.
    void check_keys(const std::vector<std::string>& known, const Renamed& renamed = {}) const;

    /// The value of a key; none when the map has none, or nothing behind the colon (reported).
    [[nodiscard]] const YamlNode* find(std::string_view key) const;
    /// The same; a key that is absent is reported with an example of one.
    [[nodiscard]] const YamlNode* require(std::string_view key, std::string_view example) const;

    /// Gives a text to a function that throws BadValue or StyleError; nothing when the value is
    /// absent, no text, or not a good one.
    template <typename Value>
    [[nodiscard]] std::optional<Value> value_of(const YamlNode* node,
                                                Value (*reader)(std::string_view)) const;

    /// The keys `feel`, `drums` and `bass`.
    [[nodiscard]] AskedManner read_manner() const;

  private:
    [[nodiscard]] std::string unknown_key(const YamlNode& key,
                                          const std::vector<std::string>& known,
                                          const Renamed& renamed) const;
    /// Whether the node is a text, which is what a single value is written as; reported if not.
    [[nodiscard]] bool is_one_value(const YamlNode& node) const;

    const YamlNode& map_;
    std::string_view what_;
    const Reading& reading_;
};

template <typename Value>
std::optional<Value> MapReader::value_of(const YamlNode* node,
                                         Value (*reader)(std::string_view)) const {
    if (node == nullptr || !is_one_value(*node)) return std::nullopt;
    try {
        return reader(node->text);
    } catch (const BadValue& error) {
        reading_.problems.add(node->offset, error.what());
    } catch (const StyleError& error) {
        reading_.problems.add(node->offset, error.what());
    }
    return std::nullopt;
}

}  // namespace compline::chart
