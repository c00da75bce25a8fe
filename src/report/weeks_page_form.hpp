#pragma once

#include "page_part.hpp"

#include <compline/history/tune_history.hpp>
#include <compline/report/weeks.hpp>

namespace compline::report {

/// What each bar of the form costs, over all evenings; nothing where nothing was judged.
[[nodiscard]] PagePart form_part(const history::TuneHistory& tune, const TuneWeeks& weeks,
                                 const WeeksAsked& asked);

/// The weakest places, each with its evenings; nothing where none is weak.
[[nodiscard]] PagePart weakest_part(const history::TuneHistory& tune, const TuneWeeks& weeks,
                                    const WeeksAsked& asked);

}  // namespace compline::report
