#include "asked_words.hpp"

#include "words.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/report/tempi.hpp>

#include <fmt/format.h>

namespace compline::report {

std::string times_words(const practice::Report& report) {
    const auto& map = report.map;
    const auto& way = map.way();
    if (report.ladder) {
        const auto times = static_cast<int>(way.stretches.size());
        return "a ladder, " + plural(times, "time through", "times through");
    }
    if (!way.is_uniform()) return "by road map: " + chart::road_map_in_words(way, map.form());
    const auto times = way.stretches.size();
    return times == 1 ? "once through" : fmt::format("{} times through", times);
}

std::string judged_bars(const practice::Report& report) {
    const auto played = bars_words(report.map.way().reach());
    const auto& part = report.settings.part;
    return part ? bars_words(*part) + " of " + played : played;
}

/// What is in time leans on the tempo, where the player asked for no tolerance of his own.
std::string tolerance_words(const practice::Report& report) {
    auto text = fmt::format("in time within {:.0f} ms", report.tolerance().milliseconds());
    if (report.settings.against == assess::Against::beat) text += " of the beat itself";
    const bool leans = !report.settings.tolerance && tempi_played(report.map).size() > 1;
    return leans ? fmt::format("{} at {} bpm", text, plain(report.map.tempo().count())) : text;
}

}  // namespace compline::report
