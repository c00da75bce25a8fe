#pragma once

#include <compline/practice/comparison.hpp>
#include <compline/practice/report.hpp>
#include <compline/report/report.hpp>

#include <span>
#include <string>

namespace compline::report {

// Several takes beside one another. Text ends with a newline; JSON has the same bytes each time.

/// A line a take, under a head: its file, when it was made, tempo, how many changes were in time
/// and how many had the right tones ("-": not judged), the weakest bars. No wider than a terminal.
[[nodiscard]] std::string takes_in_lines(std::span<const practice::Report> takes);

/// The lines, and the report of all of them together, where there is one (practice::together).
[[nodiscard]] std::string to_text(std::span<const practice::Report> takes,
                                  Listing listing = Listing::one_screen);
/// "schema": "compline.reports/1": the report of each, and that of all together or null.
[[nodiscard]] std::string to_json(std::span<const practice::Report> takes);

/// A sentence, then what got worse, what got better, and how much stayed the same; all that is to
/// be listed, what stayed the same too. Each side has one take or several, in order of time.
[[nodiscard]] std::string to_text(const practice::Comparison& comparison,
                                  std::span<const practice::Report> before,
                                  std::span<const practice::Report> after,
                                  Listing listing = Listing::one_screen);
/// "schema": "compline.comparison/1".
[[nodiscard]] std::string to_json(const practice::Comparison& comparison,
                                  std::span<const practice::Report> before,
                                  std::span<const practice::Report> after);

/// Of one take on either side.
[[nodiscard]] inline std::string to_text(const practice::Comparison& comparison,
                                         const practice::Report& before,
                                         const practice::Report& after) {
    return to_text(comparison, std::span(&before, 1), std::span(&after, 1));
}
[[nodiscard]] inline std::string to_json(const practice::Comparison& comparison,
                                         const practice::Report& before,
                                         const practice::Report& after) {
    return to_json(comparison, std::span(&before, 1), std::span(&after, 1));
}

}  // namespace compline::report
