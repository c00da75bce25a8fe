#pragma once

#include <compline/practice/report.hpp>
#include <compline/report/practice_command.hpp>

#include <optional>
#include <string>

namespace compline::report {

/// What to play next; all empty where there is nothing to suggest.
struct Suggestion {
    std::string weakest;                 ///< "bars 9-12 (B:1-4): 7 faults in 6 times through"
    std::string what;                    ///< "loop them", "the same, 4 % faster"
    std::optional<CommandLine> command;  ///< that does it; none: no chart to name
};
[[nodiscard]] Suggestion suggestion_of(const practice::Report& report);

/// The same in lines: the weakest bars and the command that loops them, with all that was asked
/// for; where all that was played is clean, what comes next instead. Begins with an empty line;
/// empty where there is nothing to suggest.
[[nodiscard]] std::string suggestion_text(const practice::Report& report);

}  // namespace compline::report
