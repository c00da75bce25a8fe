#include "meant.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/listen/pickup_words.hpp>
#include <compline/practice/offers.hpp>
#include <compline/practice/pedal.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <variant>
#include <vector>

namespace compline::practice {

namespace {

using roadmap::RoadMap;
using text::BadInput;
using time::Seconds;

/// A day: nobody plays longer, and beyond it a damaged file would be judged for as long.
constexpr Seconds longest_take{24 * 3600.0};

void refuse_endless(const Take& take) {
    if (take.end <= longest_take) return;
    throw BadInput(fmt::format("the take lasts {:.0f} hours: more than a day is not judged",
                               take.end.count() / 3600));
}

/// A few bytes of a damaged text must not ask for hours of judging: the last time through began
/// while the take went on.
void refuse_more_than_it_holds(const Take& take, const RoadMap& map) {
    const auto times = map.times_through();
    if (!take.info->ended || !times || *times < 2) return;
    const auto bar_before = map.bar(map.first_bar(*times) - 1);
    const Seconds begins = map.tempi().time_of(bar_before.start);
    if (begins <= take.end) return;
    throw BadInput(
        fmt::format("the take says that it was played {} times through; it lasts {:.0f} s, and the "
                    "last of them would begin after {:.0f} s: it is damaged",
                    *times, take.end.count(), begins.count()));
}

/// A rhythm that the take asks for and the chart's bars have no beats for.
void refuse_rhythm(const assess::Rhythm& rhythm, const RoadMap& map) {
    for (const auto at : rhythm.positions) {
        if (at < map.bar(1).meter().bar()) continue;
        throw BadInput(
            "the take's rhythm",
            fmt::format("{} is not a beat of the bar", time::beat_name(at, rhythm.meter)),
            fmt::format("the chart has {} beats", map.bar(1).meter().beats()));
    }
}

assess::Settings settings_for(const Take& take, const ScoreRequest& request) {
    assess::Settings settings;
    if (take.info) settings = take.info->settings;
    if (request.pushes) settings.pushes = *request.pushes;
    if (request.rhythm) settings.rhythm = *request.rhythm;
    if (request.strictness) settings.strictness = *request.strictness;
    if (request.against) settings.against = *request.against;
    if (request.tolerance) settings.tolerance = request.tolerance;
    if (request.tolerance_auto) settings.tolerance.reset();
    return settings;
}

bool is_by_sound(const Take& take) { return take.info && take.info->heard == HeardBy::sound; }

/// Each note is an onset: nothing is to be cleaned, and no cycles of a wave were waited for.
listen::PickupSettings for_sound(listen::PickupSettings ears) {
    ears.one_channel = true;
    ears.cleaning = {Seconds(0), 0, Seconds(0), Seconds(0), Seconds(0), 0};
    ears.delay = {ears.delay.constant};
    return ears;
}

listen::PickupSettings ears_for(const Take& take, const ScoreRequest& request) {
    listen::PickupSettings ears;
    if (take.info) {
        ears.delay = take.info->delay;
        ears.fretboard = take.info->fretboard;
        listen::read_pickup(take.info->pickup, ears);
    }
    // Those of now are of the MIDI pickup.
    if (request.delays && !is_by_sound(take)) ears.delay = request.delays->delay;
    if (request.fretboard) ears.fretboard = *request.fretboard;
    listen::read_pickup(request.pickup, ears);
    return is_by_sound(take) ? for_sound(ears) : ears;
}

/// All but what a pedal sent among it: no sustain and no strum.
std::vector<midi::TimedMessage> music_of(const Take& take) {
    auto music = take.messages;
    const auto pedal = take.info ? pedal_among_music(*take.info) : std::nullopt;
    if (!pedal) return music;
    std::erase_if(music, [&](const auto& timed) { return pedal->is_meant_by(timed.message); });
    return music;
}

void move(assess::Performance& heard, Seconds further) {
    for (auto& note : heard.notes) {
        note.on = note.on - further;
        note.off = note.off - further;
    }
    for (auto& at : heard.interruptions) at = at - further;
    for (auto& span : heard.unheard) span = {span.from - further, span.to - further};
    heard.end = heard.end - further;
}

/// What was heard, and how it is to be judged, beside the road map; not judged yet.
Report heard_in(const RoadMap& map, const Take& take, const listen::PickupSettings& ears,
                const assess::Settings& settings) {
    auto heard = listen::hear(music_of(take), ears, take.end);
    Report report{map,
                  {std::move(heard.notes), ears.fretboard, take.end, take.interruptions,
                   listen::unheard_between(take.cable, take.end)},
                  settings,
                  {},
                  heard.cleaned,
                  heard.strings,
                  {},
                  "",
                  ""};
    if (take.info) {
        report.heard.heard_by = take.info->heard;
        report.machine = take.info->machine;
        report.made = take.info->made;
        report.voicings = take.info->voicings;
        report.placement = band::placement_in_words(take.info->stage);
    }
    return report;
}

void judge(const MeantRoad& meant, const Take& take, Report& report) {
    // A take of ours knows how long it listened, also when it was cut short in a rest.
    const auto& notes = report.heard.notes;
    const Seconds last_onset = notes.empty() ? Seconds(0) : notes.back().on;
    const Seconds last_heard = take.info ? report.heard.end : last_onset;
    report.map = as_far_as_played(meant.map, meant.ended, last_heard);
    report.settings.part = meant.part;
    report.chart_hash = chart::chart_hash(report.map.form().chart);
    report.assessment = assess::assess(report.map, report.heard, report.settings);
}

/// As it went, whoever judges now: what a ladder decided stands in its take.
std::optional<LadderCourse> ladder_of(const TakeInfo& info) {
    if (!info.asked.ladder) return std::nullopt;
    std::vector<roadmap::LadderStep> steps;
    for (const auto& timed : info.decided) {
        const auto* const step = std::get_if<roadmap::LadderStep>(&timed.decision.what);
        if (step != nullptr) steps.push_back(*step);
    }
    return ladder_course(*info.asked.ladder, steps);
}

}  // namespace

Report hear_and_judge(const chart::Form& form, const Take& take, const ScoreRequest& request) {
    refuse_endless(take);
    const auto meant = what_was_meant(form, take, request);
    const bool as_it_says = !request.passage || meant.part;
    if (take.info && as_it_says) refuse_more_than_it_holds(take, meant.map);
    const auto settings = settings_for(take, request);
    if (settings.rhythm) refuse_rhythm(*settings.rhythm, meant.map);

    const auto ears = ears_for(take, request);
    auto report = heard_in(meant.map, take, ears, settings);
    if (request.delays) {
        report.delays = take_delays({ears.delay, request.delays->round_trip}, report.machine);
        move(report.heard, -report.delays->moved);
    }
    move(report.heard, request.offset);
    judge(meant, take, report);
    if (take.info && as_it_says && !request.tempo) report.ladder = ladder_of(*take.info);
    report.hints = offers(form, take, request, report);
    return report;
}

Report judged_otherwise(const chart::Form& form, const Take& take, const ScoreRequest& request,
                        const Report& heard, Seconds further) {
    const auto meant = what_was_meant(form, take, request);
    auto report = heard;
    report.hints.clear();
    if (report.settings.rhythm) refuse_rhythm(*report.settings.rhythm, meant.map);
    move(report.heard, further);
    judge(meant, take, report);
    return report;
}

Report judge_so_far(const RoadMap& map, const Take& take, const ScoreRequest& request,
                    Seconds begin) {
    const auto settings = settings_for(take, request);
    auto report = heard_in(map, take, ears_for(take, request), settings);
    report.heard.begin = begin;
    report.assessment = assess::assess(report.map, report.heard, settings);
    return report;
}

}  // namespace compline::practice
