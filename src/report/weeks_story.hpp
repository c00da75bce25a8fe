#pragma once

#include <compline/report/weeks.hpp>

#include <string>

namespace compline::report {

// A tune's story in sentences.

/// "Changes in time: 71 % four weeks ago, 88 % now: better. Tones right in 93 % lately. ..."
[[nodiscard]] std::string story_words(const TuneWeeks& tune, const WeeksAsked& asked);

/// "last played on Tuesday, 12 evenings, 5 h 40 min".
[[nodiscard]] std::string how_much_words(const TuneWeeks& tune, const WeeksAsked& asked);

/// "last played on Tuesday, 3 evenings, 14 min, 90 % of changes in time: better", for a list.
[[nodiscard]] std::string brief_words(const TuneWeeks& tune, const WeeksAsked& asked);

/// "The whole tune is due again on 3 December."; empty: nothing is.
[[nodiscard]] std::string due_words(const TuneWeeks& tune, const WeeksAsked& asked);

}  // namespace compline::report
