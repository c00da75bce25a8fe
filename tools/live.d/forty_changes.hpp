#pragma once

#include "../jack_player.d/jack_player.hpp"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <vector>

namespace compline::outside {

/// A scripted evening for JackPlayer: forty changes, ten times round four chords, one a beat,
/// at 200 bpm and 48,000 frames a second. Strums are 0, 30 or 60 ms late in turn, and up to a
/// period less, so that they are spread evenly over it; one chord is wrong, one change is missed
/// and one pushed to the off-beat before it.
///
/// Frames are counted from the first click of a count-in of one bar.
struct FortyChanges {
    static constexpr double bpm = 200;
    static constexpr int frames_a_beat = 14400;
    static constexpr int count_in = 4 * frames_a_beat;
    static constexpr int changes = 40;
    static constexpr int wrong_change = 13;  ///< F sharp on G7
    static constexpr int missed_change = 22;
    static constexpr int pushed_change = 30;

    /// The chart, in YAML.
    static const char* const chart;

    int period = 256;  ///< of the server, in frames

    /// How late the strum of a change is, in frames: negative for the pushed one.
    [[nodiscard]] int lateness(int change) const;

    /// What to send for the first `count` of them; beyond the fortieth the four chords and their
    /// lateness go round as before, without further mistakes.
    [[nodiscard]] std::vector<jack::ScriptedMessage> script(int count = changes) const;

    /// The report's lateness less the script's, in ms, for every change that is judged and not
    /// uncertain. Throws nlohmann::json::exception: no report of `compline practice --json`.
    [[nodiscard]] std::vector<double> errors(const nlohmann::json& report) const;
};

/// How far errors are from their mean, which calibration takes off.
struct Spread {
    std::size_t count = 0;
    double mean = 0;
    double deviation = 0;  ///< standard deviation
    double farthest = 0;
};

/// Of one value or more; of none: zeros.
[[nodiscard]] Spread spread(const std::vector<double>& values);

}  // namespace compline::outside
