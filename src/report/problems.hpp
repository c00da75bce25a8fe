#pragma once

#include "faults.hpp"

#include <compline/report/report.hpp>

#include <cstddef>
#include <string>

namespace compline::report {

/// What is to be said of the changes as a whole and is no fault of one: that many came in on a
/// later beat, that other chords were struck after landings. Lines; mostly nothing.
[[nodiscard]] std::string remarks_on_all(const practice::Report& report);

/// The part of a report in words that says what to mend: habits, places, the rest; with
/// Listing::all every fault by itself below that. Begins with an empty line; empty where nothing
/// was heard or there is nothing. `room`: lines of a terminal that it may take.
[[nodiscard]] std::string problems_text(const practice::Report& report, const FaultLines& faults,
                                        Listing listing, std::size_t room);

}  // namespace compline::report
