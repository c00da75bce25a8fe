#pragma once

#include "page_file.hpp"
#include "voicing_options.hpp"
#include "weeks_options.hpp"

#include <compline/roadmap/ladder.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::app {

// Homework as a teacher gives it and takes it back.

struct HomeworkOptions {
    std::string chart;
    std::string bars;
    std::optional<roadmap::AskedLadder> ladder;
    AsGiven player;
    bool take_back = false;
    bool no_grips = false;
    bool json = false;
    PageFile page;
    VoicingOptions voicings;
};

/// A player's, and how far it is.
[[nodiscard]] std::vector<report::HomeworkSoFar> homework_of(const history::History& history,
                                                             const std::string& player);

/// Keeps what is asked for, once, prints the pupil's sheet, and writes it as a page where that is
/// asked for too. Throws BadInput, chart::ChartError, history::HistoryError, files::FileError.
void give_homework(const HomeworkOptions& options, report::WeeksAsked asked);

/// Throws BadInput where none such was given, or several were.
void take_homework_back(const HomeworkOptions& options);

}  // namespace compline::app
