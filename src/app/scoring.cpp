#include "scoring.hpp"

#include "command.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace compline::app {

namespace {

using practice::Take;
using practice::TakeInfo;
using time::Seconds;

void refuse_misfit(const TakeInfo& info, const chart::Form& form) {
    const auto bars = static_cast<int>(form.bars.size());
    const auto& passage = info.passage;
    const bool fits = passage.from >= 1 && passage.from <= passage.to && passage.to <= bars &&
                      info.times_through >= 1 && info.times_through <= 10000 &&
                      info.tempo_bpm >= chart::slowest_bpm && info.tempo_bpm <= chart::fastest_bpm;
    if (fits) return;
    throw BadInput(fmt::format(
        "the take was played over bars {} to {} at {:g} bpm, {} times; the chart has {} bars: was "
        "it played to another chart?",
        passage.from, passage.to, info.tempo_bpm, info.times_through, bars));
}

assess::Settings settings_for(const chart::Form& form, const Take& take,
                              const ScoreRequest& request) {
    assess::Settings settings;
    settings.pushes = request.pushes;
    if (take.info) {
        settings.rhythm = assess::read_rhythm(take.info->rhythm, form.chart.meter);
        settings.strictness =
            harmony::read_strictness(take.info->strictness).value_or(settings.strictness);
        if (take.info->tolerance_ms) {
            settings.tolerance = time::from_milliseconds(*take.info->tolerance_ms);
        }
    }
    if (request.rhythm) settings.rhythm = *request.rhythm;
    if (request.strictness) settings.strictness = *request.strictness;
    if (request.tolerance) settings.tolerance = request.tolerance;
    if (request.tolerance_auto) settings.tolerance.reset();
    return settings;
}

assess::Performance performance_for(const chart::Form& form, const Take& take,
                                    const ScoreRequest& request, const time::Groove& groove,
                                    Seconds last_onset) {
    assess::Performance performance;
    performance.passage = form.whole();
    if (take.info) {
        performance.passage = take.info->passage;
        performance.times_through = take.info->times_through;
        performance.silent_bars = take.info->silent_bars;
    }
    if (request.passage) performance.passage = *request.passage;
    if (!take.info || request.passage) {
        performance.times_through =
            assess::times_through_in(last_onset, form, performance.passage, groove);
    }
    performance.end = take.end;
    return performance;
}

}  // namespace

report::Report score(const chart::Form& form, const Take& take, const ScoreRequest& request) {
    if (take.info) refuse_misfit(*take.info, form);
    auto tempo = request.tempo;
    if (!tempo && take.info) tempo = take.info->tempo_bpm;
    const auto groove = groove_of(form, tempo);

    Take moved = take;
    for (auto& timed : moved.messages) timed.at = timed.at - request.offset;
    moved.end = moved.end - request.offset;

    listen::Settings ears;
    if (take.info) ears.delay = take.info->delay;
    auto heard = listen::hear(moved.messages, ears, moved.end);
    const Seconds last_onset = heard.notes.empty() ? Seconds(0) : heard.notes.back().on;
    const auto settings = settings_for(form, take, request);
    const auto performance = performance_for(form, moved, request, groove, last_onset);
    report::Report report{form,          performance,   groove, settings, {},
                          heard.cleaned, heard.strings, 0,      0,        ""};
    report.assessment =
        assess::assess(form, performance, groove, heard.notes, ears.fretboard, settings);
    return report;
}

}  // namespace compline::app
