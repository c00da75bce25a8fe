#include "asked_words.hpp"
#include "change_words.hpp"
#include "faults.hpp"
#include "first_sentence.hpp"
#include "gear_lines.hpp"
#include "ladder_words.hpp"
#include "problems.hpp"
#include "suggestion.hpp"
#include "time_lines.hpp"
#include "words.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/chart/summary.hpp>
#include <compline/practice/time_alone.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/hand.hpp>
#include <compline/report/report.hpp>
#include <compline/report/tempi.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace compline::report {

namespace {

using assess::Verdict;

constexpr std::size_t terminal_lines = 24;

/// Words that name what stands behind them: "Changes  ".
constexpr std::size_t label_columns = 9;

std::vector<std::string> split_lines(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t from = 0; from < text.size();) {
        const auto end = std::min(text.find('\n', from), text.size());
        lines.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    return lines;
}

std::size_t lines_in(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

/// A way of many loops is long.
std::string asked_lines(const practice::Report& report) {
    const auto played = fmt::format("{}, {};", judged_bars(report), times_words(report));
    const auto strictness =
        practice::judges_tones(report)
            ? fmt::format(" strictness {},", harmony::name_of(report.settings.strictness))
            : "";
    const auto wanted = fmt::format(
        "rhythm {},{}", assess::rhythm_words(report.settings, report.map.form().chart), strictness);
    const auto tolerance = tolerance_words(report);
    const auto judged = wanted + " " + tolerance;
    const auto fits = [](const std::string& line) { return columns_of(line) <= terminal_columns; };
    if (fits(played + " " + judged)) return played + " " + judged + "\n";
    const auto lines = in_lines(played + "\n" + (fits(judged) ? judged : wanted + "\n" + tolerance),
                                terminal_columns);
    return fmt::format("{}\n", fmt::join(lines, "\n"));
}

std::string by_sound_line(const practice::Report& report) {
    if (practice::judges_tones(report)) return "";
    return "Heard by sound: time alone is judged, tones are not.\n";
}

std::string heading(const practice::Report& report) {
    const auto& map = report.map;
    const auto& chart = map.form().chart;
    const double swing = map.swing().ratio();
    return fmt::format(
        "{}   {}   {}   {}   {}\n{}", chart.title, key_in_words(chart), meter_words(chart.meter),
        tempo_range(map),
        swing == 1.0 || chart.meter.is_compound() ? "straight" : "swing " + ratio_words(swing),
        asked_lines(report));
}

/// On a ladder a table says it.
std::string tempo_line(const practice::Report& report) {
    const auto& map = report.map;
    if (report.ladder) return "";
    const std::string name = "Tempo    ";
    const auto tempi = tempi_by_time_through(map, terminal_columns - name.size());
    return tempi.empty() ? "" : name + tempi + "\n";
}

std::string totals_line(const practice::Report& report) {
    const auto& totals = report.assessment.totals;
    const auto by = report.heard.heard_by;
    const std::pair<Verdict, std::string_view> shown[] = {{Verdict::on_time, "on time"},
                                                          {Verdict::pushed, "pushed"},
                                                          {Verdict::placed, "placed"},
                                                          {Verdict::held, "held"},
                                                          {Verdict::laid_out, laid_out_words(by)},
                                                          {Verdict::early, "early"},
                                                          {Verdict::late, "late"},
                                                          {Verdict::missed, "missed"},
                                                          {Verdict::astray, "astray"}};
    const auto uncertain =
        totals.uncertain > 0 ? fmt::format("; {} uncertain", totals.uncertain) : std::string();
    if (totals.changes == 0) {
        return totals.uncertain > 0 ? "Changes  none for certain" + uncertain + "\n"
                                    : "Changes  none were due\n";
    }
    std::string text = fmt::format("Changes  {}:", totals.changes);
    std::string comma = " ";
    for (const auto& [verdict, words] : shown) {
        if (totals.count(verdict) == 0) continue;
        text += fmt::format("{}{} {}", comma, totals.count(verdict), words);
        comma = ", ";
    }
    const auto tones = practice::judges_tones(report)
                           ? fmt::format("; tones right in {}", totals.right_tones)
                           : std::string();
    return text + tones + uncertain + "\n";
}

/// What is too wide for a terminal goes on below, further in.
std::string in_columns(const std::string& text) {
    std::string wrapped;
    for (const auto& line : split_lines(text)) {
        // "Time     14 strums", and what stands below it.
        const bool labelled = line.size() > label_columns && line[label_columns] != ' ' &&
                              line.substr(label_columns - 2, 2) == "  ";
        const std::size_t indent = line.starts_with("  ") && line[2] != ' ' ? 4
                                   : labelled                               ? label_columns
                                                                            : 0;
        wrapped += hanging(line, terminal_columns, indent) + "\n";
    }
    return wrapped;
}

std::string ladder_lines(const practice::Report& report, Listing listing) {
    constexpr std::size_t on_one_screen = 4;  // the last ones are the news
    if (!report.ladder) return "";
    const bool all = listing == Listing::all;
    return "\n" + ladder_text(*report.ladder, all ? report.ladder->rungs.size() : on_one_screen,
                              report.heard.heard_by);
}

}  // namespace

std::string to_text(const practice::Report& report, Listing listing) {
    const auto faults = faults_of(report);
    const auto head = in_columns(first_sentence(report, faults) + "\n" + by_sound_line(report) +
                                 "\n" + heading(report) + "\n" + tempo_line(report) +
                                 totals_line(report) + time_lines(report) + gear_lines(report)) +
                      ladder_lines(report, listing);
    const auto end = suggestion_text(report);
    // Whether or not the command is there: the same faults are shown.
    constexpr std::size_t of_suggestion = 4;
    const auto taken = lines_in(head) + (end.empty() ? 0 : of_suggestion) + 1;  // an empty line
    const auto room = terminal_lines - std::min(terminal_lines, taken);
    const auto hand = report.hand ? "\n" + hand_text(*report.hand, listing) : "";
    return head + in_columns(problems_text(report, faults, listing, room)) + end + hand;
}

}  // namespace compline::report
