#include "habit_json.hpp"
#include "hand_json.hpp"
#include "json_values.hpp"
#include "ladder_json.hpp"
#include "time_json.hpp"
#include "words.hpp"

#include <compline/report/report.hpp>
#include <compline/report/tempi.hpp>

#include <cstdint>
#include <string_view>

namespace compline::report {

namespace {

using assess::Change;

Json chart_json(const practice::Report& report) {
    const auto& chart = report.map.form().chart;
    return {{"title", chart.title},
            {"key", chart.key.name(as_letters)},
            {"meter", meter_words(chart.meter)},
            {"tempo_bpm", shortest(report.map.tempo().count())},
            {"swing_ratio", rounded(report.map.swing().ratio())}};
}

Json settings_json(const practice::Report& report) {
    return {{"tolerance_ms", rounded(report.tolerance().milliseconds())},
            {"against", assess::name_of(report.settings.against)},
            {"rhythm", assess::rhythm_words(report.settings, report.map.form().chart)},
            {"strictness", harmony::name_of(report.settings.strictness)},
            {"pushes", report.settings.pushes}};
}

/// Counted as they are played, from 0.
Json silent_bars(const roadmap::RoadMap& map) {
    Json json = Json::array();
    for (std::int64_t number = 1; number <= *map.bars(); ++number) {
        if (map.bar(number).is_silent()) json.push_back(number - 1);
    }
    return json;
}

Json tempo_json(const TempoPlayed& played) {
    return {{"time_through", played.time_through},
            {"from_bar_played", played.from_bar},
            {"tempo_bpm", shortest(played.tempo.count())}};
}

Json played_json(const practice::Report& report) {
    const auto& way = report.map.way();
    const auto reach = way.reach();
    Json json = {{"from_bar", reach.from},
                 {"to_bar", reach.to},
                 {"times_through", way.stretches.size()},
                 {"strings", report.strings ? Json("a channel per string") : Json("one channel")},
                 {"silent_bars", silent_bars(report.map)},
                 {"tempi", list_json(tempi_played(report.map), tempo_json)},
                 {"placement_ms", report.placement},
                 {"route", Json::array()}};
    if (way.is_uniform()) return json;
    for (const auto& stretch : way.stretches) {
        json["route"].push_back({{"from_bar", stretch.passage.from},
                                 {"to_bar", stretch.passage.to},
                                 {"name", stretch.name}});
    }
    return json;
}

Json wrong_json(const assess::WrongTone& wrong) {
    return {{"note", harmony::note_name(wrong.note, wrong.spelling, as_letters)},
            {"string", or_null(wrong.string)},
            {"fret", or_null(wrong.fret)},
            {"nearest_fret", or_null(wrong.nearest_fret)},
            {"kind", wrong.stuck_finger ? "stuck_finger" : "foreign"}};
}

Json change_json(const Change& change) {
    Json json;
    json["time_through"] = change.time_through;
    json["bar"] = change.bar;
    json["beat"] = beat(change.beat);
    json["section"] = change.section;
    json["from"] = change.from ? Json(change.from->symbol(as_letters)) : Json(nullptr);
    json["to"] = change.to.symbol(as_letters);
    json["time_s"] = std::round(change.at.count() * 1e6) / 1e6 + 0.0;
    json["verdict"] = assess::name_of(change.verdict);
    json["lateness_ms"] = milliseconds(change.lateness);
    json["relative_ms"] = milliseconds(change.relative);
    json["beats_in"] = change.beats_in ? shortest(*change.beats_in) : Json(nullptr);
    json["spread_ms"] = milliseconds(change.spread);
    json["tones"] = assess::name_of(change.tones);
    json["missing"] = Json::array();
    for (const auto& degree : change.missing) json["missing"].push_back(degree.name(as_letters));
    json["wrong"] = Json::array();
    for (const auto& wrong : change.wrong) json["wrong"].push_back(wrong_json(wrong));
    json["later"] = {
        {"inside", change.inside}, {"passing", change.passing}, {"outside", change.outside}};
    json["wait"] = change.wait;
    json["left_out"] = change.left_out;
    json["meant"] = change.meant ? Json(change.meant->symbol(as_letters)) : Json(nullptr);
    json["uncertain"] = change.uncertain;
    json["seam"] = change.seam;
    return json;
}

Json machine_json(const practice::Machine& machine) {
    Json json = {{"output", machine.output},
                 {"input", machine.input},
                 {"rate_hz", machine.rate_hz},
                 {"period_frames", machine.period_frames},
                 {"latency_ms", rounded(machine.latency_ms)},
                 {"worst_callback_ms", rounded(machine.worst_callback_ms)},
                 {"late_strokes", machine.late_strokes},
                 {"garbled_bytes", machine.unreadable_bytes}};
    if (machine.round_trip_ms) json["round_trip_ms"] = rounded(*machine.round_trip_ms);
    return json;
}

/// Those of the player's settings; moved_ms is null where no round trip of theirs is in it.
Json delays_json(const practice::DelaysTaken& delays) {
    Json by_string = Json::array();
    for (const auto& string : delays.delay.by_string) {
        by_string.push_back(rounded(string.milliseconds()));
    }
    const bool moved = delays.round_trip == practice::RoundTripNow::taken;
    return {{"by", "settings"},
            {"constant_ms", rounded(delays.delay.constant.milliseconds())},
            {"cycles", rounded(delays.delay.cycles)},
            {"by_string_ms", by_string},
            {"moved_ms", moved ? Json(rounded(delays.moved.milliseconds())) : Json(nullptr)}};
}

/// In the tune's own time, as `time_s` is.
Json unheard_json(const listen::Unheard& span) {
    return {{"from_s", rounded(span.from.count())}, {"to_s", rounded(span.to.count())}};
}

Json hint_json(const practice::Hint& hint) {
    return {{"kind", practice::name_of(hint.kind)},
            {"words", hint.words},
            {"option", hint.option},
            {"right", hint.right},
            {"of", hint.of}};
}

/// These bars of what was played were judged, where not all of it was.
Json part_json(const assess::Settings& settings) {
    if (!settings.part) return nullptr;
    return {{"from_bar", settings.part->from}, {"to_bar", settings.part->to}};
}

Json totals_json(const assess::Totals& totals) {
    Json json;
    json["changes"] = totals.changes;
    json["uncertain"] = totals.uncertain;
    for (int i = 0; i < assess::verdict_count; ++i) {
        const auto verdict = static_cast<assess::Verdict>(i);
        json[std::string(assess::name_of(verdict))] = totals.count(verdict);
    }
    json["right_tones"] = totals.right_tones;
    return json;
}

Json weakest_json(const std::optional<assess::Weakest>& weakest) {
    if (!weakest) return nullptr;
    return {{"from_bar", weakest->from_bar},
            {"to_bar", weakest->to_bar},
            {"cost", rounded(weakest->cost)},
            {"loop", {{"from_bar", weakest->loop.from}, {"to_bar", weakest->loop.to}}}};
}

}  // namespace

std::string to_json(const practice::Report& report) {
    const auto& assessment = report.assessment;
    Json json;
    json["schema"] = "compline.report/2";
    json["program"] = text_or_null(report.program);
    json["made"] = text_or_null(report.made);
    json["take"] = text_or_null(report.take);
    json["chart_hash"] = text_or_null(report.chart_hash);
    const auto heard_by = report.heard.heard_by;
    if (heard_by == listen::HeardBy::sound) json["heard"] = listen::name_of(heard_by);
    json["chart"] = chart_json(report);
    json["settings"] = settings_json(report);
    json["played"] = played_json(report);
    json["part"] = part_json(report.settings);
    json["changes"] = list_json(assessment.changes, change_json);
    json["time"] = time_json(assessment.time);
    json["strums"] = nullptr;
    json["own_place_ms"] = own_place_json(assessment.own_place);
    json["habits"] = list_json(assessment.habits, habit_json);
    json["astray"] = list_json(assessment.astray, astray_json);
    json["hints"] = list_json(report.hints, hint_json);
    json["cleaned"] = {{"ghosts", report.cleaned.ghosts},
                       {"double_triggers", report.cleaned.double_triggers},
                       {"flickers", report.cleaned.flickers},
                       {"lift_offs", report.cleaned.lift_offs},
                       {"frets_passed", report.cleaned.frets_passed},
                       {"unended", report.cleaned.unended},
                       {"impossible", report.cleaned.impossible}};
    const auto machine = report.machine.value_or(practice::Machine{});
    json["dropped_events"] = machine.dropped_events;
    json["xruns"] = machine.xruns;
    json["machine"] = report.machine ? machine_json(machine) : Json(nullptr);
    if (report.delays) json["delays"] = delays_json(*report.delays);
    const auto& unheard = report.heard.unheard;
    if (!unheard.empty()) json["cable_out"] = list_json(unheard, unheard_json);
    json["totals"] = totals_json(assessment.totals);
    json["weakest"] = weakest_json(assessment.weakest);
    json["ladder"] = ladder_json(report.ladder);
    if (report.hand) json["hand"] = hand_json(*report.hand);
    // Names of devices are whatever bytes their makers chose.
    auto text = json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
    // Found once: within a text a line break would be written \\n.
    constexpr std::string_view strums = "\n  \"strums\": ";
    const auto at = text.find(strums) + strums.size();
    return text.replace(at, std::string_view("null").size(), strums_text(assessment.strums));
}

}  // namespace compline::report
