#pragma once

#include "section_reader.hpp"

#include <compline/chart/chart.hpp>
#include <compline/chart/way.hpp>
#include <compline/yaml/file_reading.hpp>
#include <compline/yaml/map_reader.hpp>
#include <compline/yaml/tree.hpp>

#include <optional>

namespace compline::chart {

/// Makes a chart of a YAML tree. Everything wrong goes to the problems; the chart is good only when
/// there are none.
class ChartReader {
  public:
    explicit ChartReader(const yaml::FileReading& reading) : reading_(reading) {}

    [[nodiscard]] Chart read(const yaml::Tree& tree);

  private:
    void read_map(const yaml::TreeNode& root);
    void read_header(const yaml::MapReader& map);
    void read_bars(const yaml::MapReader& map);
    void check_coda(const yaml::MapReader& map, const Sections& sections) const;
    void read_cues(const yaml::MapReader& map, bool has_a_form);
    void read_lead_in(const yaml::MapReader& map);
    /// The signs name bars of the form, so they are read where there is one.
    void read_signs(const yaml::MapReader& map, bool has_a_form);
    void read_sign(const yaml::MapReader& map, const char* key, std::string& sign);
    /// The road map is checked against the form, so only where there is one.
    [[nodiscard]] std::optional<Way> read_road_map(const yaml::MapReader& map, bool has_a_form);
    /// The same holds for the voicings.
    void read_voicings(const yaml::MapReader& map, bool has_a_form);
    /// `a_part_swings`: so that a ratio has a use whatever the chart's own feel.
    void read_swing(const yaml::MapReader& map, bool a_part_swings);

    yaml::FileReading reading_;
    Chart chart_;
    bool meter_is_known_ = true;
    bool has_coda_ = false;  ///< there is a `to coda`
};

}  // namespace compline::chart
