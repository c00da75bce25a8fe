#pragma once

#include <compline/practice/report.hpp>

#include <string>

namespace compline::report {

/// The part of a report in words that says what to mend, or that there is nothing, or that too
/// little was heard to say so. Begins with an empty line.
[[nodiscard]] std::string problems_text(const practice::Report& report);

}  // namespace compline::report
