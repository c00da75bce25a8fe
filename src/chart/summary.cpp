#include "shares.hpp"

#include <compline/chart/road_map_text.hpp>
#include <compline/chart/summary.hpp>

#include <fmt/format.h>

#include <optional>
#include <string>

namespace compline::chart {

namespace {

std::string feel_in_words(const Chart& chart) {
    const Feel feel = chart.feel();
    if (feel == Feel::straight || feel == Feel::bossa) return std::string(name_of(feel));
    // In 6/8, 9/8 and 12/8 nothing swings.
    if (chart.meter.is_compound()) return std::string(name_of(Feel::straight));
    return fmt::format("{}swing {}{:.2f}:1", feel == Feel::ballad ? "ballad, " : "",
                       chart.swing_ratio ? "" : "auto, ", chart.swing_at(chart.tempo).ratio());
}

std::string counted(std::size_t n, const char* what) {
    return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

/// What a section has of its own, its key and meter first: "D, 6/8, 144 bpm, half-time, brushes".
std::string own_in_words(const Section& section) {
    std::string text;
    const auto add = [&](const std::string& words) {
        if (!words.empty()) text += (text.empty() ? "" : ", ") + words;
    };
    if (section.key) add("key of " + section.key->name());
    if (section.meter) add(meter_name(*section.meter));
    if (section.tempo) add(fmt::format("{:g} bpm", section.tempo->count()));
    if (section.rubato) add("rubato");
    if (section.time_feel == TimeFeel::half_time) add("half-time");
    if (section.time_feel == TimeFeel::double_time) add("double-time");
    add(in_words(section.manner));
    return text;
}

/// What chart and sections ask for beyond the chart's feel: " · brushes · B bossa, two-feel".
std::string manners_in_words(const Chart& chart) {
    std::string text;
    const auto add = [&](const std::string& who, const std::string& words) {
        if (!words.empty()) text += " · " + who + words;
    };
    AskedManner beyond_feel = chart.manner;
    beyond_feel.feel.reset();
    add("", in_words(beyond_feel));
    for (const auto& section : chart.sections) add(section.name + " ", own_in_words(section));
    return text;
}

std::size_t number_of_kicks(const Form& form) {
    std::size_t kicks = 0;
    for (const auto& bar : form.bars) kicks += bar.kicks.size();
    return kicks;
}

}  // namespace

std::string key_in_words(const Chart& chart) {
    if (!chart.written_in) return chart.key.name();
    return fmt::format("{} (written in {})", chart.key.name(), chart.written_in->name());
}

std::string summary(const Form& form) { return summary(form, key_in_words(form.chart)); }

std::string summary(const Form& form, const std::string& key) {
    const Chart& chart = form.chart;
    auto text = fmt::format("{} · {} · {} · {:g} bpm · {}{} · {} · {}", chart.title, key,
                            meter_name(chart.meter), chart.tempo.count(), feel_in_words(chart),
                            manners_in_words(chart), counted(form.bars.size(), "bar"),
                            counted(static_cast<std::size_t>(number_of_changes(form)), "change"));
    if (const auto kicks = number_of_kicks(form)) text += " · " + counted(kicks, "kick");
    if (const auto way = own_road_map(form))
        text += " · road map: " + road_map_in_words(*way, form);
    return text;
}

}  // namespace compline::chart
