#pragma once

#include "command.hpp"

#include <compline/band/place.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// What a player may ask of the band, as typed; empty: not asked.
struct BandOptions {
    std::string drums;
    std::string bass;
    std::string feel;
    std::string swing;
    std::string phrasing;
    std::string click;
    std::string silence;
    std::string count_in;
    std::string plan;
    std::string hihat;
    bool fills = false;
    bool crash = false;
    std::string place;
    std::string mix;
    std::string pan;
    std::string melody;
    std::string seed;
};

/// As a command has them.
[[nodiscard]] std::vector<Option> options_of(BandOptions& options);

/// What is played when the band is not asked for a plan: bars, and how often.
struct Stay {
    std::string bars;
    std::optional<int> times;  ///< none: until stopped
    bool asked = false;        ///< bars or times were given: against the chart's own plan
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
