#pragma once

#include "command.hpp"

#include <compline/band/place.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// What a player may ask of the band. What needs the chart to be understood is kept as typed;
/// empty: not asked.
struct BandOptions {
    chart::AskedManner manner;
    std::string swing;
    std::string click;
    std::optional<band::Silence> silence;
    std::optional<int> count_in;
    std::string road_map;
    std::string hihat;
    bool fills = false;
    bool crash = false;
    band::Stage stage;
    std::string melody;
    int seed = 1;
};

/// As a command has them.
[[nodiscard]] std::vector<Option> options_of(BandOptions& options);

/// What is played when the band is not asked for a road map: bars, and how often.
struct Stay {
    std::string bars;
    std::optional<int> times;  ///< none: until stopped
    bool asked = false;        ///< bars or times were given: against the chart's own road map
};

/// The band as it was asked for.
struct Band {
    band::Setup setup;
    band::Stage stage;
    time::Groove groove{time::Timeline(time::Bpm(120)), time::Swing::straight()};
};

/// Reads them all; a swing that was asked for goes into the form's chart. Throws BadInput.
[[nodiscard]] Band read_band(const BandOptions& options, chart::Form& form, const Stay& stay,
                             std::optional<double> tempo);

/// A swing as typed or as a take has it; empty leaves the chart's. Throws BadInput.
void apply_swing(const std::string& swing, const std::string& who, chart::Form& form);

}  // namespace compline::app
