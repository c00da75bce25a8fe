#include <compline/report/report.hpp>

#include <nlohmann/json.hpp>

#include <cmath>

namespace compline::report {

namespace {

using Json = nlohmann::ordered_json;
using assess::Change;
using harmony::Accidentals;

constexpr auto letters = Accidentals::letters;

/// Three decimals, and no negative zero.
double rounded(double value) { return std::round(value * 1000) / 1000 + 0.0; }

Json milliseconds(const std::optional<time::Seconds>& value) {
    if (!value) return nullptr;
    return rounded(value->milliseconds());
}

Json number(const std::optional<double>& value) {
    if (!value) return nullptr;
    return rounded(*value);
}

template <typename T>
Json or_null(const std::optional<T>& value) {
    if (!value) return nullptr;
    return *value;
}

/// A whole beat as a whole number.
Json beat(double value) {
    if (value == std::floor(value)) return static_cast<int>(value);
    return rounded(value);
}

Json chart_json(const Report& report) {
    const auto& chart = report.form.chart;
    return {{"title", chart.title},
            {"key", chart.key.name(letters)},
            {"meter", std::to_string(chart.meter.beats()) + "/4"},
            {"tempo_bpm", beat(report.groove.timeline.tempo().count())},
            {"swing_ratio", rounded(report.groove.swing.ratio())}};
}

Json settings_json(const Report& report) {
    return {{"tolerance_ms", rounded(report.tolerance().milliseconds())},
            {"rhythm", report.settings.rhythm.name()},
            {"strictness", harmony::name_of(report.settings.strictness)},
            {"pushes", report.settings.pushes}};
}

Json played_json(const Report& report) {
    const auto& performance = report.performance;
    const auto reach = performance.route.reach();
    Json json = {{"from_bar", reach.from},
                 {"to_bar", reach.to},
                 {"times_through", performance.route.stretches.size()},
                 {"strings", report.strings ? Json("a channel per string") : Json("one channel")},
                 {"silent_bars", performance.silent_bars},
                 {"placement_ms", report.placement},
                 {"route", Json::array()}};
    if (performance.route.is_uniform()) return json;
    for (const auto& stretch : performance.route.stretches) {
        json["route"].push_back({{"from_bar", stretch.passage.from},
                                 {"to_bar", stretch.passage.to},
                                 {"name", stretch.name}});
    }
    return json;
}

Json wrong_json(const assess::WrongTone& wrong) {
    return {{"note", harmony::note_name(wrong.note, wrong.spelling, letters)},
            {"string", or_null(wrong.string)},
            {"fret", or_null(wrong.fret)},
            {"nearest_fret", or_null(wrong.nearest_fret)},
            {"kind", wrong.stuck_finger ? "stuck_finger" : "foreign"}};
}

Json change_json(const Change& change) {
    Json json;
    json["pass"] = change.pass;
    json["bar"] = change.bar;
    json["beat"] = beat(change.beat);
    json["section"] = change.section;
    json["from"] = change.from ? Json(change.from->symbol(letters)) : Json(nullptr);
    json["to"] = change.to.symbol(letters);
    json["time_s"] = std::round(change.at.count() * 1e6) / 1e6 + 0.0;
    json["verdict"] = assess::name_of(change.verdict);
    json["lateness_ms"] = milliseconds(change.lateness);
    json["relative_ms"] = milliseconds(change.relative);
    json["beats_in"] = change.beats_in ? beat(*change.beats_in) : Json(nullptr);
    json["spread_ms"] = milliseconds(change.spread);
    json["tones"] = assess::name_of(change.tones);
    json["missing"] = Json::array();
    for (const auto& degree : change.missing) json["missing"].push_back(degree.name(letters));
    json["wrong"] = Json::array();
    for (const auto& wrong : change.wrong) json["wrong"].push_back(wrong_json(wrong));
    json["later"] = {
        {"inside", change.inside}, {"passing", change.passing}, {"outside", change.outside}};
    json["uncertain"] = change.uncertain;
    json["seam"] = change.seam;
    return json;
}

Json spread_json(const assess::Spread& spread) {
    return {{"strums", spread.count},
            {"mean_ms", number(spread.mean_ms)},
            {"sd_ms", number(spread.sd_ms)}};
}

Json per_beat_json(const assess::TimeKeeping& time) {
    Json json = Json::array();
    for (const auto& written : time.per_beat) {
        json.push_back({{"beat", beat(1 + time::Beats(written.in_bar).count())},
                        {"strums", written.strums.count},
                        {"missing", written.missing},
                        {"mean_ms", number(written.strums.mean_ms)},
                        {"sd_ms", number(written.strums.sd_ms)}});
    }
    return json;
}

Json silences_json(const assess::TimeKeeping& time) {
    Json json = Json::array();
    for (const auto& silence : time.silences) {
        json.push_back({{"first_bar_played", silence.first_bar + 1},
                        {"bars", silence.bars},
                        {"strums", silence.strums},
                        {"came_back_ms", number(silence.came_back_ms)}});
    }
    return json;
}

Json time_json(const assess::TimeKeeping& time) {
    Json json = spread_json(time.all);
    json["drift_ms_per_bar"] = number(time.drift_ms_per_bar);
    json["swing_ratio"] = number(time.swing_ratio);
    json["missing_strums"] = time.missing_strums;
    json["on_beats"] = spread_json(time.on_beats);
    json["off_beats"] = spread_json(time.off_beats);
    json["per_beat"] = per_beat_json(time);
    json["silences"] = silences_json(time);
    json["kicks"] = spread_json(time.kicks.caught);
    json["kicks"]["written"] = time.kicks.written;
    return json;
}

Json machine_json(const practice::Machine& machine) {
    return {{"output", machine.output},
            {"input", machine.input},
            {"rate_hz", machine.rate_hz},
            {"period_frames", machine.period_frames},
            {"latency_ms", rounded(machine.latency_ms)},
            {"worst_callback_ms", rounded(machine.worst_callback_ms)},
            {"late_strokes", machine.late_strokes},
            {"garbled_bytes", machine.garbled_bytes}};
}

Json totals_json(const assess::Totals& totals) {
    Json json;
    json["changes"] = totals.changes;
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

std::string to_json(const Report& report) {
    Json json;
    json["schema"] = "compline.report/1";
    json["chart"] = chart_json(report);
    json["settings"] = settings_json(report);
    json["played"] = played_json(report);
    json["changes"] = Json::array();
    for (const auto& change : report.assessment.changes) {
        json["changes"].push_back(change_json(change));
    }
    json["time"] = time_json(report.assessment.time);
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
    json["totals"] = totals_json(report.assessment.totals);
    json["weakest"] = weakest_json(report.assessment.weakest);
    // Names of devices are whatever bytes their makers chose.
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace compline::report
