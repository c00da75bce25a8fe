#pragma once

#include "command.hpp"
#include "scoring.hpp"

#include <compline/guitar/voicing_plan.hpp>
#include <compline/practice/session.hpp>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

namespace compline::app {

/// What a practice session is to be, read and checked.
struct Evening {
    chart::Form form;
    std::string chart_file;
    time::Groove groove{time::Timeline(time::Bpm(120)), time::Swing::straight()};
    practice::BandOnStage on_stage;
    std::optional<guitar::VoicingPlan> voicings;  ///< shown, for the player to play
    std::string swing;  ///< asked for by the player; empty: the chart's own
    ScoreRequest rules;
    time::Seconds offset{0};  ///< the calibration: subtracted from every onset
    std::string out;          ///< the output meant; empty: the default one
    std::string in;           ///< the input meant, or "none"; empty: the only one
    std::optional<time::SampleRate> rate;
    std::optional<int> period;
    std::optional<std::filesystem::path> take;  ///< none: among the player's takes
    bool verdicts = false;
    bool json = false;

    [[nodiscard]] bool listens() const { return in != "none"; }
};

/// Plays the band, listens, shows where we are, and prints the report at the end.
[[nodiscard]] Status play(const Evening& evening);

}  // namespace compline::app
