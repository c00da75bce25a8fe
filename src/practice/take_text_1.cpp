#include "take_text_1.hpp"

#include "asked_json.hpp"

#include <compline/chart/read_manner.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace compline::practice {

namespace {

/// Of the manner only what moves the off-beats was kept: the rest is not judged by.
template <typename Place>
void read_manner(const JsonValue& json, Place& manner) {
    const auto given = [&](const char* key) {
        auto value = json.find(key);
        return value && !value->is("") ? value : std::nullopt;
    };
    if (const auto feel = given("feel")) manner.feel = feel->named(chart::find_feel);
    if (const auto drums = given("drums")) manner.drums = drums->named(chart::find_drums);
}

chart::Way read_way(const JsonValue& json, bool finished) {
    const auto times = json.find(finished ? "times_through" : "times_meant");
    chart::Way way;
    if (const auto route = json.find("route")) {
        for (const auto& item : route->items()) {
            chart::Stretch stretch{read_bars(item.at("bars")), "", {}};
            if (const auto name = item.find("name")) stretch.name = name->text();
            read_manner(item, stretch.manner);
            way.stretches.push_back(std::move(stretch));
        }
        if (way.stretches.empty()) route->refuse("a time through at least");
        way.goes_on = !times;
        return way;
    }
    const auto bars = read_bars(json.at("bars"));
    const auto played =
        times ? std::optional(times->count(1, chart::most_bars_of_a_road_map)) : std::nullopt;
    return chart::Way::of(bars, played);
}

/// Bars played, from 0, ascending: where a run of them begins the band leaves, behind it it is
/// back.
std::vector<TimedDecision> read_silent_bars(const JsonValue& json, const chart::Way& way) {
    constexpr int furthest = 1'000'000;
    const auto times = way.times_through();
    const std::int64_t bars = times ? way.bars_before(*times + 1) : roadmap::furthest_decision;
    std::vector<TimedDecision> decided;
    const auto decide = [&](std::int64_t from_bar, bool alone) {
        if (from_bar > bars) return;
        decided.push_back(
            {time::Seconds(0), {from_bar, roadmap::LaysOut{roadmap::everybody, alone}}});
    };
    std::int64_t back = 0;  // the bar behind the last silent one, from 1
    for (const auto& item : json.items()) {
        const std::int64_t bar = item.whole(0, furthest) + 1;
        if (bar < back) item.refuse("a bar behind the one before");
        if (bar != back) {
            if (back > 0) decide(back, false);
            decide(bar, true);
        }
        back = bar + 1;
    }
    if (back > 0) decide(back, false);
    return decided;
}

/// "bass +8, ride -4" were its words; "bass=+8,ride=-4" are those of the option.
void read_placement_1(const std::string& words, band::Stage& stage) {
    std::string option;
    for (const char c : words) {
        const bool behind_comma = c == ' ' && !option.empty() && option.back() == ',';
        if (!behind_comma) option += c == ' ' ? '=' : c;
    }
    if (!option.empty()) band::read_placement(option, stage);
}

}  // namespace

TakeInfo read_info_1(const JsonValue& json) {
    TakeInfo info;
    info.version = 1;
    info.chart_hash = json.at("chart").text();
    info.ended = json.find("times_through").has_value();
    info.asked.way = read_way(json, info.ended);
    info.asked.tempo.emplace(json.at("tempo_bpm").number(chart::slowest_bpm, chart::fastest_bpm));
    read_manner(json, info.asked.manner);
    if (const auto swing = json.find("swing"); swing && !swing->is("")) {
        info.asked.swing = roadmap::AskedSwing{
            swing->read([](const std::string& text) { return chart::read_swing_ratio(text); })};
    }
    if (const auto placement = json.find("placement_ms")) {
        placement->read([&](const std::string& words) { read_placement_1(words, info.stage); });
    }
    info.pickup = read_pickup_words(json);
    info.decided = read_silent_bars(json.at("silent_bars"), info.asked.way);
    info.delay = read_delay(json.at("calibration"));
    info.settings = read_settings(json.at("settings"));
    if (const auto machine = json.find("machine")) info.machine = read_machine(*machine);
    return info;
}

}  // namespace compline::practice
