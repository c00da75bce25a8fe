#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/chart/form.hpp>
#include <compline/practice/report.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// JSON, "schema": "compline.report/2", as report-2.schema.json beside the source says. Note names
/// and symbols in plain letters; milliseconds with three decimals. Ends with a newline. The same
/// report gives the same bytes, whatever the locale.
[[nodiscard]] std::string to_json(const practice::Report& report);

/// One screen of plain text: totals, time, a line a problem, the weakest four bars and the command
/// that loops them. Ends with a newline.
[[nodiscard]] std::string to_text(const practice::Report& report);

/// A fault in words: "bar 7  A7 → Dm7  late 62 ms". One line a fault; none where there is none. A
/// change of this form: beats are named in the meter of its bar.
[[nodiscard]] std::vector<std::string> problems_of(const assess::Change& change,
                                                   bool with_time_through, const chart::Form& form);

/// One change as it went, whether well or not: "bar 7  A7 → Dm7  on time, 3 ms late", "bar 7  A7 →
/// Dm7  placed on 2, 12 ms late".
[[nodiscard]] std::string verdict_line(const assess::Change& change, const chart::Form& form);

}  // namespace compline::report
