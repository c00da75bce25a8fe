#pragma once

#include "reading.hpp"
#include "section_reader.hpp"
#include "yaml_tree.hpp"

#include <compline/chart/chart.hpp>

#include <optional>
#include <string_view>
#include <utility>

namespace compline::chart {

/// Makes a chart of a YAML tree. Everything wrong goes to the problems; the chart is good only when
/// there are none.
class ChartReader {
  public:
    explicit ChartReader(const Reading& reading) : reading_(reading) {}

    [[nodiscard]] Chart read(const YamlTree& tree);

  private:
    void read_map(const YamlNode& root);
    void check_keys(const YamlNode& root);
    void read_header(const YamlNode& root);
    void read_feel_and_swing(const YamlNode& root);
    void read_bars(const YamlNode& root);

    /// The value of a key; none when the file has none, or nothing behind the colon (reported).
    [[nodiscard]] const YamlNode* find(const YamlNode& root, std::string_view key);
    /// The same; a key that is absent is reported with an example of one.
    [[nodiscard]] const YamlNode* require(const YamlNode& root, std::string_view key,
                                          std::string_view example);

    /// Gives a text to one of the functions of values.hpp; nothing when the value is absent, no
    /// text, or not a good one.
    template <typename Value>
    [[nodiscard]] std::optional<Value> value_of(const YamlNode* node,
                                                Value (*reader)(std::string_view));

    Reading reading_;
    Chart chart_;
    bool meter_is_known_ = true;
};

}  // namespace compline::chart
