#pragma once

#include "command.hpp"
#include "page_file.hpp"

#include <compline/report/weeks.hpp>

#include <string>

namespace compline::app {

/// Whose weeks are told, and how: in words or as JSON, and as a page too.
struct WeeksTold {
    report::WeeksAsked asked;
    bool json = false;
    PageFile page;
};

// Where nothing was played that is said, and no page is written: could_not, where one was asked
// for. Both throw BadInput, history::HistoryError; files::FileError where the page cannot be
// written.

[[nodiscard]] Status tell_all(const WeeksTold& told);

/// Of the tune of a chart's file or of a title. Throws chart::ChartError too.
[[nodiscard]] Status tell_one(const std::string& word, const WeeksTold& told);

}  // namespace compline::app
