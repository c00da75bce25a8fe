#include "weeks_page_form.hpp"

#include "picture.hpp"
#include "weeks_page_trend.hpp"
#include "weeks_words.hpp"

#include <compline/history/evenings.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace compline::report {

namespace {

constexpr double form_width = 800;
constexpr double form_top = 6;
constexpr double form_height = 150;
constexpr double form_words = 44;
constexpr double widest_bar = 60;
constexpr double numbers_apart = 60;  ///< of three digits, 40 high on a phone
constexpr double least_full = 0.25;   ///< where nothing costs much, nothing stands high

struct BarColumn {
    double cost = 0;  ///< of one time through
    history::ChangeSums sums;
    std::string section;
};

std::map<int, BarColumn> costs_by_bar(const history::TuneHistory& tune, const std::string& since) {
    std::map<int, BarColumn> bars;
    for (const auto& place : history::places_of(tune, since)) {
        auto& bar = bars[place.bar];
        bar.cost += place.cost_each();
        bar.sums.of += place.sums.of;
        bar.sums.both += place.sums.both;
        bar.section = place.section;
    }
    return bars;
}

bool is_weak_bar(const TuneWeeks& weeks, int bar) {
    const auto& weakest = weeks.story.weakest;
    return std::any_of(weakest.begin(), weakest.end(),
                       [bar](const auto& place) { return place.bar == bar; });
}

std::string form_picture(const std::map<int, BarColumn>& bars, const TuneWeeks& weeks) {
    const int last = std::max(weeks.bars, bars.rbegin()->first);
    const double wide = std::min(form_width / last, widest_bar);
    double most = least_full;
    for (const auto& [number, bar] : bars) most = std::max(most, bar.cost);
    Picture picture(form_width, form_top + form_height + form_words);
    const double foot = form_top + form_height;
    for (const auto& [number, bar] : bars) {
        const double height = form_height * bar.cost / most;
        if (height < 0.5) continue;
        picture.box({(number - 1) * wide + wide * 0.08, foot - height, wide * 0.84, height},
                    is_weak_bar(weeks, number) ? "under" : "over");
    }
    picture.line({0, foot}, {last * wide, foot}, "ground");
    double free = 0;
    for (int number = 1; number <= last; number += 4) {
        const double x = (number - 1) * wide;
        picture.line({x, foot}, {x, foot + 8}, "ground");
        if (x < free) continue;
        picture.words({x, foot + 40}, std::to_string(number), "number");
        free = x + numbers_apart;
    }
    return picture.svg("form");
}

std::string form_table(const std::map<int, BarColumn>& bars) {
    PageTable table("Over all evenings; a missed change costs 1, one 100 ms off 0.5",
                    {"bar", "section", "in time and right", "cost each time"});
    for (const auto& [number, bar] : bars) {
        table.row({std::to_string(number), bar.section,
                   fmt::format("{} of {}", bar.sums.both, bar.sums.of),
                   fmt::format("{:.2f}", bar.cost)});
    }
    return table.markup();
}

std::string form_says(const std::map<int, BarColumn>& bars) {
    const auto worst = std::max_element(
        bars.begin(), bars.end(),
        [](const auto& one, const auto& other) { return one.second.cost < other.second.cost; });
    return fmt::format("What each of {} bars costs: bar {} most.", bars.size(), worst->first);
}

std::string course_or_too_few(const history::PlaceStory& place) {
    const auto course = place_course_words(place);
    return course.empty() ? "too few evenings to tell" : course;
}

}  // namespace

PagePart form_part(const history::TuneHistory& tune, const TuneWeeks& weeks,
                   const WeeksAsked& asked) {
    const auto bars = costs_by_bar(tune, asked.since);
    if (bars.empty()) return {};
    PagePart part{"bars",
                  "What each bar costs",
                  form_says(bars),
                  form_picture(bars, weeks),
                  "The higher, the more went wrong there, over all evenings.",
                  form_table(bars)};
    if (!weeks.story.weakest.empty()) part.below += " In colour: weak of late, as told below.";
    return part;
}

PagePart weakest_part(const history::TuneHistory& tune, const TuneWeeks& weeks,
                      const WeeksAsked& asked) {
    const auto& weakest = weeks.story.weakest;
    if (weakest.empty()) return {};
    PageTable table("Weakest places, the costliest first", {"place", "what went wrong", "course"});
    PagePart part{"weakest", "Weakest places of late", "", "", "", ""};
    for (const auto& place : weakest) {
        const auto where = place_words(place);
        const auto course = course_or_too_few(place);
        part.says += fmt::format("{}{}: {}", part.says.empty() ? "" : "; ", where, course);
        part.picture += "<div class=\"weak\">\n" + paragraph_markup("what", where) +
                        paragraph_markup("how", place_faults_words(place) + "; " + course) +
                        evenings_picture(history::evenings_of(tune, place, asked.since),
                                         place.trend, 0, "small") +
                        "</div>\n";
        table.row({where, place_faults_words(place), course});
    }
    part.picture = "<div class=\"pairs\">\n" + part.picture + "</div>\n";
    part.below = "Each dot: an evening's changes there that were in time and right.";
    part.table = table.markup();
    return part;
}

}  // namespace compline::report
