#pragma once

#include "command.hpp"

#include <compline/band/place.hpp>
#include <compline/roadmap/asked.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

/// What a player may ask of the band. What needs the chart to be understood is kept as typed;
/// empty: not asked.
struct BandOptions {
    chart::AskedManner manner;
    std::optional<roadmap::AskedSwing> swing;
    std::string click;
    std::optional<roadmap::Silence> silence;
    std::optional<int> count_in;
    std::string road_map;
    std::string hihat;
    bool fills = false;
    bool crash = false;
    band::Stage stage;
    /// By the settings, in words: how loud and where the band stands, where that is not asked for.
    struct Usual {
        std::string mix;
        std::string pan;
        bool operator==(const Usual&) const = default;
    };
    Usual usual;
    std::string melody;
    int seed = 1;
    bool operator==(const BandOptions&) const = default;
};

/// As a command has them.
[[nodiscard]] std::vector<Option> options_of(BandOptions& options);

/// A road map is asked for; "none" passes over the chart's own.
[[nodiscard]] bool asks_for_road_map(const BandOptions& options);

/// Throws BadInput where a road map is asked for beside --each-time, which is one itself.
void refuse_road_map(const BandOptions& options);

/// What is played when the band is not asked for a road map: bars, and how often.
struct Stay {
    std::string bars;
    std::optional<int> times;  ///< none: until stopped
    bool asked = false;        ///< bars or times were given: against the chart's own road map
};

/// The band as it was asked for.
struct AskedBand {
    roadmap::Asked asked;
    band::Players players;
    band::Stage stage;
};

/// Reads them all. Throws BadInput.
[[nodiscard]] AskedBand read_band(const BandOptions& options, const chart::Form& form,
                                  const Stay& stay, std::optional<double> tempo);

}  // namespace compline::app
