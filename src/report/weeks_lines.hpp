#pragma once

#include <compline/report/practice_command.hpp>
#include <compline/report/weeks.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::report {

// Lines to type that weeks of practice suggest.

/// A line for a tune, in the hands of who asks. Where its chart is not to be found, CHART stands in
/// place of the file.
[[nodiscard]] CommandLine line_for(const history::KnownTune& tune, std::vector<std::string> pieces,
                                   const WeeksAsked& asked);
/// The line, and before it how to get on where the chart is not to be found.
[[nodiscard]] std::string lines_for(const history::KnownTune& tune, std::vector<std::string> pieces,
                                    const WeeksAsked& asked);

/// Why CHART stands in a tune's line, and what to do; empty: it does not.
[[nodiscard]] std::string lost_chart_words(const history::KnownTune& tune, const WeeksAsked& asked);

/// "--bars 9-12".
[[nodiscard]] std::string bars_piece(int from, int to);

[[nodiscard]] CommandLine homework_line(const history::Homework& homework, const WeeksAsked& asked);

/// What to loop of a tune next, and what that line adds to the chart.
struct NextLoop {
    std::string what;  ///< "bar 7, with the bar to come from"
    std::vector<std::string> pieces;
};
/// By its weakest place; none where no place is weak.
[[nodiscard]] std::optional<NextLoop> next_of(const TuneWeeks& tune);

/// What a thing to do is done by, one line after the other.
[[nodiscard]] std::vector<CommandLine> lines_of(const history::Thing& thing,
                                                const WeeksAsked& asked);

}  // namespace compline::report
