#pragma once

#include <compline/chart/form.hpp>
#include <compline/practice/take.hpp>
#include <compline/report/report.hpp>

#include <optional>

namespace compline::app {

inline constexpr double widest_tolerance_ms = 200;

/// What the player asked for; what is not asked for comes from the take, then from the chart.
struct ScoreRequest {
    std::optional<double> tempo;
    std::optional<chart::Passage> passage;
    std::optional<time::Seconds> tolerance;
    bool tolerance_auto = false;  ///< asked for, against the take's own
    std::optional<assess::Rhythm> rhythm;
    std::optional<harmony::Strictness> strictness;
    std::optional<assess::Against> against;
    bool pushes = true;
    std::string pickup;       ///< words (listen::read_pickup), as far as asked for
    time::Seconds offset{0};  ///< added to the take's time zero
};

/// Hears a take and judges it. The same code for a file, the demo and live practice, whose take is
/// read back first: so `score` says the same of it, byte for byte (2026-11-25). Throws
/// BadInput when the take's own text does not fit the chart.
[[nodiscard]] report::Report score(chart::Form form, practice::Take take,
                                   const ScoreRequest& request);

}  // namespace compline::app
