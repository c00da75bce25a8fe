#pragma once

#include "command.hpp"

#include <compline/history/history.hpp>
#include <compline/report/weeks.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace compline::app {

// What the commands share that tell of weeks of practice.

/// --player, which is a setting too.
[[nodiscard]] Option player_option(AsGiven& player);

/// Who asks, today: an evening lasts until four in the morning. Lines to type name the player where
/// he was typed, not where the settings say who plays.
[[nodiscard]] report::WeeksAsked weeks_asked(const AsGiven& player);

/// A chart's file as the history keeps it.
[[nodiscard]] history::KeptChart kept_chart_of(const ChartFile& chart, const std::string& path);

/// Homework, and how far it is by what was played of its tunes.
[[nodiscard]] std::vector<report::HomeworkSoFar> so_far(
    const std::vector<history::Homework>& homework, const std::vector<history::TuneHistory>& tunes);

/// Runs what reads the history; what cannot be understood there is bad input, with what to do.
template <typename Read>
auto reading_history(Read read) {
    try {
        return read();
    } catch (const history::DamagedHistory& error) {
        throw BadInput(std::string(error.what()) +
                       "\nYour takes have all of it: compline history --rebuild makes it anew.");
    }
}

}  // namespace compline::app
