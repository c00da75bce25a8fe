#pragma once

#include "map_reader.hpp"
#include "reading.hpp"
#include "section_reader.hpp"
#include "yaml_tree.hpp"

#include <compline/chart/chart.hpp>
#include <compline/chart/route.hpp>

#include <optional>

namespace compline::chart {

/// Makes a chart of a YAML tree. Everything wrong goes to the problems; the chart is good only when
/// there are none.
class ChartReader {
  public:
    explicit ChartReader(const Reading& reading) : reading_(reading) {}

    [[nodiscard]] Chart read(const YamlTree& tree);

  private:
    void read_map(const YamlNode& root);
    void read_header(const MapReader& map);
    void read_bars(const MapReader& map);
    /// The road map is checked against the form, so only where there is one.
    [[nodiscard]] std::optional<Route> read_road_map(const MapReader& map, bool has_a_form);
    /// The same holds for the voicings.
    void read_voicings(const MapReader& map, bool has_a_form);
    /// `a_part_swings`: so that a ratio has a use whatever the chart's own feel.
    void read_swing(const MapReader& map, bool a_part_swings);

    Reading reading_;
    Chart chart_;
    bool meter_is_known_ = true;
};

}  // namespace compline::chart
