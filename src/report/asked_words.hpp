#pragma once

#include <compline/practice/report.hpp>

#include <string>

namespace compline::report {

// What was played and how it is judged, as the heads of reports say it.

/// "once through", "8 times through", "a ladder, 44 times through", "by road map: ...".
[[nodiscard]] std::string times_words(const practice::Report& report);

/// "bars 1-32"; "bars 13-16 of bars 1-32" where these were asked for.
[[nodiscard]] std::string judged_bars(const practice::Report& report);

/// "in time within 42 ms".
[[nodiscard]] std::string tolerance_words(const practice::Report& report);

}  // namespace compline::report
