#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/chart/route.hpp>
#include <compline/listen/listener.hpp>
#include <compline/practice/take.hpp>

#include <optional>
#include <string>
#include <vector>

namespace compline::report {

// An assessment with all that a reader needs to understand it: what was played, in which feel, by
// which rules, and what the listener left out.

struct Report {
    chart::Form form;
    assess::Performance performance;
    time::Groove groove;
    assess::Settings settings;
    assess::Assessment assessment;
    listen::Cleaned cleaned;
    std::optional<listen::Strings> strings;    ///< none: one channel for all strings
    std::optional<practice::Machine> machine;  ///< none: not played live
    std::string chart_file;                    ///< for the command that loops the weakest bars
    std::string placement;  ///< where the band stood beside the beat ("bass +8"); empty: on it

    /// The judge's own: that of the settings, or wider where the player's time is.
    [[nodiscard]] time::Seconds tolerance() const {
        if (assessment.tolerance > time::Seconds(0)) return assessment.tolerance;
        return settings.tolerance.value_or(assess::auto_tolerance(groove));
    }
};

/// JSON, "schema": "compline.report/2", as report-2.schema.json beside the source says. Note names
/// and symbols in plain letters; milliseconds with three decimals. Ends with a newline. The same
/// report gives the same bytes, whatever the locale.
[[nodiscard]] std::string to_json(const Report& report);

/// One screen of plain text: totals, time, a line a problem, the weakest four bars and the command
/// that loops them. Ends with a newline.
[[nodiscard]] std::string to_text(const Report& report);

/// A fault in words: "bar 7  A7 → Dm7  late 62 ms". One line a fault; none where there is none.
[[nodiscard]] std::vector<std::string> problems_of(const assess::Change& change,
                                                   bool with_time_through, time::Meter meter);

/// One change as it went, whether well or not: "bar 7  A7 → Dm7  on time, 3 ms late", "bar 7  A7 →
/// Dm7  placed on 2, 12 ms late".
[[nodiscard]] std::string verdict_line(const assess::Change& change, time::Meter meter);

}  // namespace compline::report
