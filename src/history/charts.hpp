#pragma once

#include "database.hpp"

#include <compline/history/judged_take.hpp>
#include <compline/history/tune_history.hpp>

#include <map>
#include <string>
#include <utility>

namespace compline::history {

// Which charts are one tune. A chart that is corrected, or renamed, is the same tune still: it has
// the same places, or the same title and half of its places or more (a judgement, no source).

/// Where chords change in a chart, and to what: bar and beat, symbol in plain letters.
using ChartPlaces = std::map<std::pair<int, time::BeatOfBar>, std::string>;

/// What is asked of a chart's text.
struct ChartShape {
    ChartPlaces places;
    int bars = 0;  ///< of the form, without a coda
    double bpm = 0;
    int beats_a_bar = 4;
};
/// Of a text that cannot be read any more: nothing.
[[nodiscard]] ChartShape shape_of(const std::string& chart_text);

/// The chart's row; made where it is not there. Its title and text are those it was played with
/// last, on `made`; its file is the one that was told last.
std::int64_t chart_row(Database& database, const KeptChart& chart, const std::string& made);

/// The tune that a chart is one of, 0 where it is of none.
[[nodiscard]] std::int64_t tune_of(Database& database, const KeptChart& chart);

/// Charts and tunes that nothing refers to are taken out.
void remove_unused_charts(Database& database);

}  // namespace compline::history
