#include "scoring.hpp"

#include "band_options.hpp"
#include "command.hpp"
#include "rules.hpp"

#include <compline/listen/pickup_words.hpp>
#include <compline/text/bad_input.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

namespace compline::app {

namespace {

using practice::Take;
using practice::TakeInfo;
using time::Seconds;

/// A day: nobody plays longer, and beyond it a damaged file would be judged for as long.
constexpr Seconds longest_take{24 * 3600.0};
/// More bars than a day holds at 400 bpm.
constexpr std::int64_t most_played_bars = 200000;

void refuse_misfit(const TakeInfo& info, const chart::Form& form) {
    const auto bars = static_cast<int>(form.bars.size());
    const auto& stretches = info.route.stretches;
    const bool in_form =
        std::all_of(stretches.begin(), stretches.end(), [&](const chart::Stretch& s) {
            return s.passage.from >= 1 && s.passage.from <= s.passage.to && s.passage.to <= bars;
        });
    const auto times = stretches.size();
    const bool fits = in_form && times >= 1 &&
                      times <= static_cast<std::size_t>(most_played_bars) &&
                      info.route.bars_before(static_cast<int>(times) + 1) <= most_played_bars &&
                      info.tempo_bpm >= chart::slowest_bpm && info.tempo_bpm <= chart::fastest_bpm;
    if (fits) return;
    const auto reach = info.route.reach();
    throw BadInput(fmt::format(
        "the take was played over bars {} to {} at {:g} bpm, {} times; the chart has {} bars: was "
        "it played to another chart?",
        reach.from, reach.to, info.tempo_bpm, times, bars));
}

/// A few bytes of a damaged text must not ask for hours of judging: the last time through began
/// while the take went on.
void refuse_more_than_it_holds(const Take& take, time::Meter meter) {
    const auto& info = *take.info;
    const auto times = static_cast<int>(info.route.stretches.size());
    if (info.cut_short || times < 2) return;
    const time::Bpm tempo(info.tempo_bpm);
    const auto last = info.route.start(times, meter) - meter.bar();
    const Seconds begins = tempo.beat() * time::Beats(last).count();
    if (begins <= take.end) return;
    throw BadInput(
        fmt::format("the take says that it was played {} times through; it lasts {:.0f} s, and the "
                    "last of them would begin after {:.0f} s: it is damaged",
                    times, take.end.count(), begins.count()));
}

void refuse_endless(const Take& take) {
    if (take.end <= longest_take) return;
    throw BadInput(fmt::format("the take lasts {:.0f} hours: more than a day is not judged",
                               take.end.count() / 3600));
}

// What a take's own text says of its settings. A take that says the impossible is damaged, or from
// a later Compline; guessing would judge by rules that nobody played by.

assess::Rhythm rhythm_of(const TakeInfo& info, time::Meter meter) {
    return text::read_at("the take's rhythm",
                         [&] { return assess::read_rhythm(info.rhythm, meter); });
}

harmony::Strictness strictness_of(const TakeInfo& info) {
    if (const auto strictness = harmony::read_strictness(info.strictness)) return *strictness;
    throw BadInput(
        fmt::format("the take's strictness: {} is not known", text::quoted(info.strictness)));
}

assess::Against against_of(const TakeInfo& info) {
    if (const auto against = assess::read_against(info.against)) return *against;
    throw BadInput(fmt::format("the take was judged against {}: that is not known",
                               text::quoted(info.against)));
}

std::optional<Seconds> tolerance_of(const TakeInfo& info) {
    if (!info.tolerance_ms) return std::nullopt;
    if (*info.tolerance_ms > 0 && *info.tolerance_ms <= widest_tolerance_ms) {
        return time::from_milliseconds(*info.tolerance_ms);
    }
    throw BadInput(fmt::format("the take's tolerance: {:g} ms is not between 0 and {:g}",
                               *info.tolerance_ms, widest_tolerance_ms));
}

listen::Delay delay_of(const TakeInfo& info) {
    constexpr Seconds longest{1.0};
    constexpr double most_cycles = 20;
    const auto& delay = info.delay;
    const bool sane =
        time::abs(delay.constant) <= longest && delay.cycles >= 0 && delay.cycles <= most_cycles;
    if (sane) return delay;
    throw BadInput(fmt::format("the take's calibration: {:g} ms and {:g} cycles cannot be",
                               delay.constant.milliseconds(), delay.cycles));
}

listen::PickupSettings ears_for(const Take& take, const ScoreRequest& request) {
    listen::PickupSettings ears;
    if (take.info) {
        ears.delay = delay_of(*take.info);
        text::read_at("the take's MIDI pickup",
                      [&] { listen::read_pickup(take.info->pickup, ears); });
    }
    read_pickup_option(request.pickup, ears);
    return ears;
}

assess::Settings settings_for(const chart::Form& form, const Take& take,
                              const ScoreRequest& request) {
    assess::Settings settings;
    settings.pushes = request.pushes;
    if (take.info) {
        settings.rhythm = rhythm_of(*take.info, form.chart.meter);
        settings.strictness = strictness_of(*take.info);
        settings.against = against_of(*take.info);
        settings.tolerance = tolerance_of(*take.info);
    }
    if (request.rhythm) settings.rhythm = *request.rhythm;
    if (request.strictness) settings.strictness = *request.strictness;
    if (request.against) settings.against = *request.against;
    if (request.tolerance) settings.tolerance = request.tolerance;
    if (request.tolerance_auto) settings.tolerance.reset();
    return settings;
}

/// The route that was played, as far as it is known before the take has been heard.
chart::Route route_meant(const chart::Form& form, const Take& take, const ScoreRequest& request) {
    if (take.info && !request.passage) return take.info->route;
    return chart::Route::of(request.passage.value_or(form.whole()), std::nullopt);
}

/// What moves the off-beats.
chart::AskedManner manner_of(const TakeInfo& info) {
    chart::AskedManner manner{chart::find_feel(info.feel), chart::find_drums(info.drums), {}};
    if (!info.feel.empty() && !manner.feel) {
        throw BadInput(fmt::format("the take's feel: {} is not known", text::quoted(info.feel)));
    }
    if (!info.drums.empty() && !manner.drums) {
        throw BadInput(fmt::format("the take's drums: {} is not known", text::quoted(info.drums)));
    }
    return manner;
}

assess::Performance performance_for(const chart::Form& form, const Take& take,
                                    const ScoreRequest& request, time::Bpm tempo,
                                    Seconds last_heard) {
    assess::Performance performance;
    const auto meant = route_meant(form, take, request);
    const bool is_known = take.info && !take.info->cut_short && !request.passage;
    performance.route =
        is_known
            ? meant
            : meant.first(assess::times_through_in(last_heard, meant, form.chart.meter, tempo));
    if (take.info) performance.silent_bars = take.info->silent_bars;
    performance.end = take.end;
    performance.interruptions = take.interruptions;
    return performance;
}

}  // namespace

report::Report score(chart::Form form, Take take, const ScoreRequest& request) {
    if (take.info) refuse_misfit(*take.info, form);
    refuse_endless(take);
    if (take.info) refuse_more_than_it_holds(take, form.chart.meter);
    auto bpm = request.tempo;
    if (!bpm && take.info) bpm = take.info->tempo_bpm;
    const time::Bpm tempo = bpm ? time::Bpm(*bpm) : form.chart.tempo;
    chart::AskedManner manner;
    if (take.info) {
        manner = manner_of(*take.info);
        apply_swing(take.info->swing, "the take's swing", form);
    }
    const auto groove = chart::groove_of(form, route_meant(form, take, request), manner, tempo);

    for (auto& timed : take.messages) timed.at = timed.at - request.offset;
    for (auto& at : take.interruptions) at = at - request.offset;
    take.end = take.end - request.offset;

    const auto ears = ears_for(take, request);
    auto heard = listen::hear(take.messages, ears, take.end);
    // A take of ours knows how long it listened, also when it was cut short in a rest.
    const Seconds last_onset = heard.notes.empty() ? Seconds(0) : heard.notes.back().on;
    const Seconds last_heard = take.info ? take.end : last_onset;
    const auto settings = settings_for(form, take, request);
    const auto performance = performance_for(form, take, request, tempo, last_heard);
    report::Report report{form,          performance,   groove, settings, {},
                          heard.cleaned, heard.strings, {},     "",       ""};
    if (take.info) report.machine = take.info->machine;
    if (take.info) report.placement = take.info->placement;
    report.assessment =
        assess::assess(form, performance, groove, heard.notes, ears.fretboard, settings);
    return report;
}

}  // namespace compline::app
