#include "asked_words.hpp"
#include "first_sentence.hpp"
#include "page.hpp"
#include "page_part.hpp"
#include "suggestion.hpp"
#include "take_page_beat.hpp"
#include "take_page_grips.hpp"
#include "take_page_hand.hpp"
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

namespace compline::report {

namespace {

/// The sentence, large; behind it the option that helps, where the take hardly fits.
std::string sentence(const practice::Report& report) {
    const auto words = first_sentence(report, faults_of(report));
    const auto end = words.find('\n');
    if (end == std::string::npos) return paragraph_markup("sentence", words);
    const auto more = words.substr(end + 1);
    const auto option = more.find("\n    ");
    auto markup = paragraph_markup("sentence", words.substr(0, end)) +
                  paragraph_markup("", more.substr(0, option));
    if (option != std::string::npos) markup += typed_markup(more.substr(option + 5));
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
    return section_markup(
        "next", "Next",
        paragraph_markup("", words) + typed_markup(command ? command->in_one_line() : ""));
}

std::string head(const practice::Report& report) {
    const auto& title = report.map.form().chart.title;
    auto markup =
        "<header>\n<h1>" + escaped(title.empty() ? "A take" : title) + "</h1>\n" + sentence(report);
    if (!practice::judges_tones(report)) {
        markup += paragraph_markup("", "Heard by sound: time alone is judged, tones are not.");
    }
    return markup + paragraph_markup("facts", facts(report)) + "</header>\n";
}

}  // namespace

std::string take_html(const practice::Report& report, Hand hand, const guitar::VoicingPlan* shown) {
    const auto places = practice::places_of(report);
    auto body = "<main>\n" + head(report) + next(report);
    for (const auto& part :
         {strip_part(report, places), map_part(report), grips_part(report, hand, shown),
          hand_part(report, hand), tempi_part(report), beat_part(report)}) {
        body += markup_of(part);
    }
    const auto& title = report.map.form().chart.title;
    return html_file((title.empty() ? "A take" : title) + ": how it went", For::screens,
                     page_style(), body + "</main>\n");
}

}  // namespace compline::report
