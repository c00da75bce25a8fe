#pragma once

#include <compline/practice/report.hpp>

#include <string>
#include <vector>

namespace compline::app {

/// The newest of the player's own takes of a chart, as its form says it, judged by their own rules,
/// the newest first. What cannot be read, what was played to another chart, and evenings on which
/// nothing was struck are passed over.
[[nodiscard]] std::vector<practice::Report> newest_takes(const chart::Form& form);

/// The bars that those takes call the weakest, as --bars takes them: with the bar to come from.
struct WeakestBars {
    std::string bars;  ///< empty: none is weak
    std::string why;   ///< in words for the player
};
/// Throws BadInput where there is no take of the chart: with what to do.
[[nodiscard]] WeakestBars weakest_bars(const chart::Form& form);

}  // namespace compline::app
