#include "weeks_lines.hpp"
#include "weeks_next_words.hpp"
#include "weeks_words.hpp"
#include "words.hpp"

#include <compline/report/weeks.hpp>

#include <fmt/format.h>

#include <array>
#include <numeric>
#include <set>

namespace compline::report {

namespace {

using history::Thing;
using history::ThingKind;

constexpr int thing_indent = 3;

std::string things_heading(const std::vector<Thing>& things, const WeeksAsked& asked) {
    constexpr std::array<const char*, 3> numbers = {"One thing", "Two things", "Three things"};
    const int minutes =
        std::accumulate(things.begin(), things.end(), 0,
                        [](int sum, const Thing& thing) { return sum + thing.minutes; });
    const auto count = things.size() <= numbers.size() ? std::string(numbers[things.size() - 1])
                                                       : fmt::format("{} things", things.size());
    const auto whose = asked.player.empty() ? "" : " for " + player_words(asked.player);
    return fmt::format("{}{} today, about {}\n", count, whose,
                       plural(minutes, "minute", "minutes"));
}

/// Of a thing that is done by a tune's chart.
std::string lost_words(const Thing& thing, const WeeksAsked& asked) {
    if (thing.kind == ThingKind::transition || thing.kind == ThingKind::first_take) return "";
    const auto& tune = thing.homework ? thing.homework->tune : thing.tune;
    return lost_chart_words(tune, asked);
}

/// `lost`: what was said of charts that are not to be found, once each.
std::string thing_lines(std::size_t number, const Thing& thing, const WeeksAsked& asked,
                        std::set<std::string>& lost) {
    auto text = hung(fmt::format("{}  {}", number, what_words(thing)), thing_indent);
    const auto chart = lost_words(thing, asked);
    const bool is_new = lost.insert(chart).second;
    for (const auto& words : {why_words(thing, asked), is_new ? chart : ""}) {
        if (!words.empty()) text += paragraph(words, thing_indent);
    }
    for (const auto& line : lines_of(thing, asked)) text += line.in_lines();
    return text;
}

}  // namespace

std::string next_text(const std::vector<Thing>& things, const WeeksAsked& asked) {
    if (things.empty()) return "Nothing is weak and nothing is due today: play what you like.\n";
    auto text = things_heading(things, asked);
    std::set<std::string> lost;
    for (std::size_t i = 0; i < things.size(); ++i) {
        text += "\n" + thing_lines(i + 1, things[i], asked, lost);
    }
    return text;
}

}  // namespace compline::report
