#pragma once

#include <compline/assess/assessment.hpp>
#include <compline/practice/report.hpp>
#include <compline/roadmap/road_map.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// JSON, "schema": "compline.report/2", as report-2.schema.json beside the source says. Note names
/// and symbols in plain letters; milliseconds with three decimals. Ends with a newline. The same
/// report gives the same bytes, whatever the locale.
[[nodiscard]] std::string to_json(const practice::Report& report);

/// Whether every fault is listed, or as many as fit one screen.
enum class Listing { one_screen, all };

/// Plain text, no wider than 80 columns: first a sentence that says time, tones and what to work
/// on; totals and time; habits, places and what is left; the weakest four bars and the command that
/// loops them; what the hand did, where somebody asked. Ends with a newline.
[[nodiscard]] std::string to_text(const practice::Report& report,
                                  Listing listing = Listing::one_screen);

/// A fault in words: "bar 7  A7 → Dm7  late 62 ms". One line a fault; none where there is none. A
/// change of this map: beats are named in the meter of its bar, and of those played after it.
[[nodiscard]] std::vector<std::string> problems_of(const assess::Change& change,
                                                   bool with_time_through,
                                                   const roadmap::RoadMap& map);

/// One change as it went, whether well or not: "bar 7  A7 → Dm7  on time, 3 ms late", "bar 7  A7 →
/// Dm7  placed on 2, 12 ms late".
[[nodiscard]] std::string verdict_line(const assess::Change& change, const roadmap::RoadMap& map);

}  // namespace compline::report
