#pragma once

#include "faults.hpp"

#include <compline/report/report.hpp>

#include <string>

namespace compline::report {

/// The part of a report in words that says what to mend: habits, places, the rest; with
/// Listing::all every fault by itself below that. Begins with an empty line; empty where nothing
/// was heard or there is nothing.
[[nodiscard]] std::string problems_text(const practice::Report& report, const FaultLines& faults,
                                        Listing listing);

}  // namespace compline::report
