#pragma once

#include "page_part.hpp"

#include <compline/history/tune_history.hpp>
#include <compline/report/weeks.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// Evenings as dots, the line of nine in ten, and a line through the evenings where they rise or
/// fall; the first day and the last below them. `low`: the share at the foot; `name`: of
/// the style.
[[nodiscard]] std::string evenings_picture(const std::vector<history::TrendPoint>& points,
                                           const history::Trend& trend, double low,
                                           const std::string& name);

/// A tune's evenings, and below them the tempo of each where it differs; nothing where none
/// could be judged.
[[nodiscard]] PagePart trend_part(const history::TuneHistory& tune, const TuneWeeks& weeks,
                                  const WeeksAsked& asked);

}  // namespace compline::report
