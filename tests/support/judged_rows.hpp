#pragma once

#include <compline/history/judged_take.hpp>

#include <string>
#include <vector>

namespace compline::tests {

/// A chart of the history: four bars to a line, in C at 120.
history::KeptChart kept_chart(const std::string& title, const std::string& bars);

/// What was played on one evening, in few words.
struct PlayedRows {
    std::string made = "2026-11-03T20:00:00+01:00";
    std::string player;
    double bpm = 120;
    int times = 2;
    int from_bar = 1;
    int to_bar = 0;  ///< 0: to the last
    /// Of each change, over all times through and in turn: "." is in time and right, "l" late by 90
    /// ms, "m" missed, "w" wrong. It begins again where it ends.
    std::string how = ".";
    std::string key;
};

/// The rows of such a take; another fingerprint for whatever differs.
history::JudgedTake judged_rows(const history::KeptChart& chart, const PlayedRows& played);

}  // namespace compline::tests
