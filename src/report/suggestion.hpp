#pragma once

#include <compline/practice/report.hpp>

#include <string>

namespace compline::report {

/// The weakest bars and the command that loops them, with all that was asked for; where all that
/// was played is clean, what comes next instead. Begins with an empty line; empty where there is
/// nothing to suggest.
[[nodiscard]] std::string suggestion_text(const practice::Report& report);

}  // namespace compline::report
