#pragma once

#include <compline/chart/form.hpp>
#include <compline/report/voicing_page.hpp>

#include <string>
#include <vector>

namespace compline::report {

// A chart as a lead sheet has it: what comes again is written once, between repeat signs, its
// endings behind it, the coda last.

/// For a terminal; no line is wider than `columns` (taken as 30 to 80):
///
///          in D, 144 bpm                         to coda
///      7 B   |:F7              | B♭7             | F7              |
///     10 B 1.| Gm7    C7       | F6      C7     :|
///
/// Above a row stands what is its section's own, and the signs at their bars. The number before it
/// is that of its first bar, as it is played first.
///
/// With shapes, the form as it is held behind a capo, their names stand below each row.
[[nodiscard]] std::vector<std::string> lead_sheet(const chart::Form& form, int columns = 80,
                                                  const chart::Form* shapes = nullptr);

/// For the stand, as copyists write rhythm charts: a staff with a slash for each beat, the chords
/// above it, kicks as accents, endings under brackets, the road map at the foot. One page, as large
/// as lets the tune stand on it; a file that needs nothing else. What the chart says is escaped.
[[nodiscard]] std::string lead_sheet_html(const chart::Form& form, Paper paper);

}  // namespace compline::report
