#include "page.hpp"
#include "page_part.hpp"
#include "svg.hpp"
#include "weeks_lines.hpp"
#include "weeks_page_form.hpp"
#include "weeks_page_style.hpp"
#include "weeks_page_trend.hpp"
#include "weeks_story.hpp"
#include "weeks_tempi.hpp"
#include "weeks_words.hpp"

#include <compline/report/weeks_page.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace compline::report {

namespace {

std::string whole_title(const history::KnownTune& tune) {
    return tune.title.empty() ? "A tune without a title" : tune.title;
}

std::string player_behind(const WeeksAsked& asked) {
    return asked.player.empty() ? "" : " · " + asked.player;
}

/// A page is read later: it says of which day it is, in figures.
std::string as_of(const WeeksAsked& asked) {
    return (asked.since.empty() ? "" : "since " + asked.since + ", ") + "as of " + asked.today;
}

std::string with_due(const TuneWeeks& weeks, const WeeksAsked& asked) {
    const auto due = due_words(weeks, asked);
    return story_words(weeks, asked) + (due.empty() ? "" : " " + due);
}

/// What it begins with, large, and behind it what else there is to say.
std::string story_markup(const TuneWeeks& weeks, const WeeksAsked& asked) {
    const auto words = with_due(weeks, asked);
    const auto end = std::min(words.find(". "), words.size() - 1) + 1;
    return paragraph_markup("sentence", words.substr(0, end)) +
           paragraph_markup("", words.substr(end));
}

std::string weeks_next_markup(const TuneWeeks& weeks, const WeeksAsked& asked) {
    const auto next = next_of(weeks);
    if (!next) return "";
    return section_markup(
        "next", "Next",
        paragraph_markup("", "Play " + next->what + ":") +
            paragraph_markup("", lost_chart_words(weeks.story.tune, asked)) +
            typed_markup(line_for(weeks.story.tune, next->pieces, asked).in_one_line()));
}

std::string list_of(const char* name, const char* heading, const std::vector<std::string>& items) {
    if (items.empty()) return "";
    std::string list = "<ul>\n";
    for (const auto& item : items) list += "<li>" + escaped(item) + "</li>\n";
    return section_markup(name, heading, list + "</ul>\n");
}

std::string homework_list(const std::vector<HomeworkSoFar>& all, const WeeksAsked& asked) {
    std::vector<std::string> items;
    for (const auto& one : all) {
        items.push_back(homework_name(one.homework) + ": " + so_far_words(one, asked.today));
    }
    return list_of("homework", "Homework", items);
}

/// A heading of its own, and an id of its own for what screen readers look for; the key of all
/// pictures stands above them.
std::string tune_block(const history::TuneHistory& tune, const TuneWeeks& weeks, std::size_t index,
                       const WeeksAsked& asked) {
    auto part = trend_part(tune, weeks, asked);
    part.below.clear();
    return section_markup("trend", whole_title(tune.tune),
                          paragraph_markup("how", how_much_words(weeks, asked)) +
                              paragraph_markup("", with_due(weeks, asked)) + figure_markup(part),
                          fmt::format("tune{}", index));
}

std::string tune_item(const TuneWeeks& weeks, const WeeksAsked& asked) {
    return whole_title(weeks.story.tune) + ": " + brief_words(weeks, asked);
}

constexpr std::size_t most_drawn = 6;  ///< as many as a sheet holds

constexpr const char* key_of_all =
    "Each dot is an evening's changes in time; dashed: nine in ten; a line through the dots: it "
    "gets better or worse; below: the tempo, bpm, where it differs.";

}  // namespace

std::string tune_html(const history::TuneHistory& tune, const std::vector<HomeworkSoFar>& homework,
                      const WeeksAsked& asked) {
    const auto weeks = weeks_of(tune, asked.since);
    const auto title = whole_title(tune.tune);
    auto body = "<main class=\"weeks\">\n<header>\n<h1>" + escaped(title + player_behind(asked)) +
                "</h1>\n" + story_markup(weeks, asked) +
                paragraph_markup("facts", how_much_words(weeks, asked) + ", " + as_of(asked)) +
                "</header>\n" + weeks_next_markup(weeks, asked);
    for (const auto& part : {trend_part(tune, weeks, asked), form_part(tune, weeks, asked),
                             weeks_tempi_part(weeks), weakest_part(tune, weeks, asked)}) {
        body += markup_of(part);
    }
    if (weeks.story.weakest.empty()) {
        body += paragraph_markup("", "No place is weak that was played often enough to say so.");
    }
    body += homework_list(homework, asked) + "</main>\n";
    return html_file(title + ": weeks of practice", For::screens, weeks_page_style(), body);
}

std::string weeks_html(const std::vector<history::TuneHistory>& tunes, const AllWeeks& told,
                       const WeeksAsked& asked) {
    assert(tunes.size() == told.tunes.size());
    const auto title = asked.player.empty() ? "Your tunes" : "Tunes of " + asked.player;
    std::string blocks;
    std::size_t drawn = 0;
    std::vector<std::string> earlier;
    std::vector<std::string> drills;
    for (std::size_t i = 0; i < tunes.size(); ++i) {
        if (tunes[i].tune.drill) {
            drills.push_back(tune_item(told.tunes[i], asked));
        } else if (drawn < most_drawn) {
            blocks += tune_block(tunes[i], told.tunes[i], ++drawn, asked);
        } else {
            earlier.push_back(tune_item(told.tunes[i], asked));
        }
    }
    auto body = "<main class=\"weeks all\">\n<header>\n<h1>" + escaped(title) + "</h1>\n" +
                paragraph_markup("facts", "The last played first, " + as_of(asked)) +
                paragraph_markup("facts", tunes.empty()    ? "Nothing was played that was kept."
                                          : blocks.empty() ? ""
                                                           : key_of_all) +
                "</header>\n" + blocks + list_of("earlier", "Not played as lately", earlier) +
                list_of("drills", "Drills", drills) +
                homework_list(homework_to_tell(told.homework, asked.today), asked) + "</main>\n";
    return html_file(title, For::screens, weeks_page_style(), body);
}

}  // namespace compline::report
