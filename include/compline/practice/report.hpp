#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/listen/listener.hpp>
#include <compline/practice/machine.hpp>
#include <compline/roadmap/road_map.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::practice {

/// An option of what was played that is asked for again when it is played again.
struct KeptOption {
    std::string name;   ///< "--out"
    std::string value;  ///< as it was typed; empty for a flag
    bool operator==(const KeptOption&) const = default;
};

/// An assessment with all that a reader needs to understand it: what was played, in which feel, by
/// which rules, and what the listener left out. What words, pages and a history are made of.
struct Report {
    roadmap::RoadMap map;  ///< one that ends
    assess::Performance heard;
    assess::Settings settings;
    assess::Assessment assessment;
    listen::Cleaned cleaned;
    std::optional<listen::Strings> strings;  ///< none: one channel for all strings
    std::optional<Machine> machine;          ///< none: not played live
    std::string chart_file;                  ///< for the command that loops the weakest bars
    std::string placement;  ///< where the band stood beside the beat ("bass +8"); empty: on it

    std::vector<KeptOption> kept = {};  ///< ... and what else it is to say
    /// The bars that were played through the keys, one a time; none: the chart as it is.
    std::optional<chart::Passage> through_keys = {};

    /// The judge's own, at the first tempo: that of the settings, or wider where the player's time
    /// is.
    [[nodiscard]] time::Seconds tolerance() const {
        if (assessment.tolerance > time::Seconds(0)) return assessment.tolerance;
        return settings.tolerance.value_or(assess::auto_tolerance(map.tempo(), map.swing()));
    }
};

}  // namespace compline::practice
