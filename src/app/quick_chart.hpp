#pragma once

#include <compline/chart/chart.hpp>

#include <string>

namespace compline::app {

// Charts without a chart file: a few changes to practise, and a beginning to write on from.

/// "Dm7 | G7 | Cmaj7 | A7b9" as a tune of one section, 120 to the minute, in 4/4. Its key is that
/// of the last chord that can be a tonic, else of the first chord. Throws BadInput, with the place
/// in the text.
[[nodiscard]] chart::Chart chart_of_changes(const std::string& changes);

/// A chart's text: so many bars on the tonic, to be written over.
struct NewChart {
    std::string title;
    chart::Key key;
    time::Meter meter{4};
    int bars = 8;
};
[[nodiscard]] std::string chart_to_begin_with(const NewChart& wanted);

}  // namespace compline::app
