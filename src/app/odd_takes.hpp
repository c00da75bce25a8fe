#pragma once

#include <compline/practice/scoring.hpp>

#include <string>

namespace compline::app {

/// Says what a player would not expect of a take that is judged.
struct OddTake {
    const practice::Take& take;
    const std::string& path;
    const std::string& chart;  ///< as it was given; empty: none was

    /// A chart that is not the take's own is named, by bar: what was played was played to another.
    void say_other_chart(const chart::Form& form) const;
    /// Bars that were not played, by what the take says.
    void say_other_bars(const chart::Form& form, const practice::ScoreRequest& request) const;
    /// Nobody knows what a file from elsewhere came through.
    void say_no_delay(const practice::ScoreRequest& request) const;
    /// What asks for something of tones, where none were heard.
    void say_no_tones(const practice::ScoreRequest& request) const;
};

}  // namespace compline::app
