#pragma once

#include <compline/history/tune_history.hpp>
#include <compline/report/weeks.hpp>

#include <string>
#include <vector>

namespace compline::report {

// What weeks of practice came to, and a sheet of homework, as pages to look at and to print. Each
// is a file that needs nothing else: no script, nothing from elsewhere. Behind each picture stands
// a table; nothing is said by colour alone. What charts and players are called is escaped. The same
// values give the same bytes.

/// One tune: whether it gets better, in words and evening by evening; in time by tempo; what each
/// bar costs; the weakest places, each with its evenings; what to play next.
[[nodiscard]] std::string tune_html(const history::TuneHistory& tune,
                                    const std::vector<HomeworkSoFar>& homework,
                                    const WeeksAsked& asked);

/// The tunes that were played last, each in words and evening by evening, six at most, which is a
/// sheet; behind them the others in a line each, drills and homework. `told` is of the same tunes,
/// in the same order (asserted).
[[nodiscard]] std::string weeks_html(const std::vector<history::TuneHistory>& tunes,
                                     const AllWeeks& told, const WeeksAsked& asked);

/// A sheet for the pupil: the bars, grips for them, what to do, what counts as done, two boxes to
/// tick, the line to type. Days are dates: paper is read later.
[[nodiscard]] std::string homework_html(const HomeworkSheet& sheet, const WeeksAsked& asked);

}  // namespace compline::report
