#include "asked_words.hpp"
#include "first_sentence.hpp"
#include "page.hpp"
#include "suggestion.hpp"
#include "take_page_beat.hpp"
#include "take_page_grips.hpp"
#include "take_page_map.hpp"
#include "take_page_strip.hpp"
#include "take_page_tempi.hpp"
#include "words.hpp"

#include <compline/chart/summary.hpp>
#include <compline/practice/time_alone.hpp>
#include <compline/report/spoken_date.hpp>
#include <compline/report/take_page.hpp>
#include <compline/report/tempi.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace compline::report {

namespace {

std::string page_paragraph(const char* name, const std::string& words) {
    if (words.empty()) return "";
    return fmt::format("<p class=\"{}\">{}</p>\n", name, escaped(words));
}

/// Markup of a line to be typed: where it does not fit, it is broken before an option, and never
/// behind the hyphens of one.
std::string typed(const std::string& line) {
    if (line.empty()) return "";
    std::string markup = "<pre><code>";
    for (std::size_t from = 0; from < line.size();) {
        const auto end = std::min(line.find(" --", from + 1), line.size());
        if (line[from] == ' ') markup += line[from++];
        markup += "<span>" + escaped(line.substr(from, end - from)) + "</span>";
        from = end;
    }
    return markup + "</code></pre>\n";
}

/// The sentence, large; behind it the option that helps, where the take hardly fits.
std::string sentence(const practice::Report& report) {
    const auto words = first_sentence(report, faults_of(report));
    const auto end = words.find('\n');
    if (end == std::string::npos) return page_paragraph("sentence", words);
    const auto more = words.substr(end + 1);
    const auto option = more.find("\n    ");
    auto markup = page_paragraph("sentence", words.substr(0, end)) +
                  page_paragraph("", more.substr(0, option));
    if (option != std::string::npos) markup += typed(more.substr(option + 5));
    return markup;
}

std::string facts(const practice::Report& report) {
    const auto& map = report.map;
    const auto& chart = map.form().chart;
    auto words = fmt::format("{} · {} · {} · {}, {} · {}", key_in_words(chart),
                             meter_words(chart.meter), tempo_range(map), judged_bars(report),
                             times_words(report), tolerance_words(report));
    if (!report.made.empty()) words += " · played " + spoken_date(report.made);
    return words;
}

std::string next(const practice::Report& report) {
    const auto [weakest, what, command] = suggestion_of(report);
    if (weakest.empty() && !command) return "";
    auto words = weakest.empty() ? "" : "Weakest: " + weakest;
    if (command) words += (weakest.empty() ? "" : "; ") + what + ":";
    return "<section class=\"next\" aria-labelledby=\"next\">\n<h2 id=\"next\">Next</h2>\n" +
           page_paragraph("", words) + typed(command ? command->in_one_line() : "") +
           "</section>\n";
}

std::string head(const practice::Report& report) {
    const auto& title = report.map.form().chart.title;
    auto markup =
        "<header>\n<h1>" + escaped(title.empty() ? "A take" : title) + "</h1>\n" + sentence(report);
    if (!practice::judges_tones(report)) {
        markup += page_paragraph("", "Heard by sound: time alone is judged, tones are not.");
    }
    return markup + page_paragraph("facts", facts(report)) + "</header>\n";
}

}  // namespace

std::string take_html(const practice::Report& report, Hand hand) {
    const auto places = practice::places_of(report);
    auto body = "<main>\n" + head(report) + next(report);
    for (const auto& part : {strip_part(report, places), map_part(report), grips_part(report, hand),
                             tempi_part(report), beat_part(report)}) {
        body += markup_of(part);
    }
    const auto& title = report.map.form().chart.title;
    return html_file((title.empty() ? "A take" : title) + ": how it went", For::screens,
                     page_style(), body + "</main>\n");
}

}  // namespace compline::report
