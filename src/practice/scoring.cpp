#include <compline/listen/pickup_words.hpp>
#include <compline/practice/scoring.hpp>
#include <compline/text/bad_input.hpp>
#include <compline/time/beat_name.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <utility>

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

/// What was played along to, as far as it is known before the take has been heard.
RoadMap map_meant(const chart::Form& form, const Take& take, const ScoreRequest& request) {
    TakeInfo info;
    if (take.info) {
        info = *take.info;
    } else {
        info.asked = roadmap::Asked::of(form.whole(), std::nullopt);
    }
    if (request.passage) {
        info.asked.way = chart::Way::of(*request.passage, std::nullopt);
        // Nothing is as long as it was then: what is played goes on until the take ends.
        std::erase_if(info.decided, [](const TimedDecision& decided) {
            const auto& what = decided.decision.what;
            return !std::holds_alternative<roadmap::NewTempo>(what) &&
                   !std::holds_alternative<roadmap::LaysOut>(what);
        });
    }
    if (request.tempo) {
        info.asked.tempo = request.tempo;
        std::erase_if(info.decided, [](const TimedDecision& decided) {
            return std::holds_alternative<roadmap::NewTempo>(decided.decision.what);
        });
    }
    return map_of(info, form);
}

assess::Settings settings_for(const Take& take, const ScoreRequest& request) {
    assess::Settings settings;
    if (take.info) settings = take.info->settings;
    settings.pushes = request.pushes;
    if (request.rhythm) settings.rhythm = *request.rhythm;
    if (request.strictness) settings.strictness = *request.strictness;
    if (request.against) settings.against = *request.against;
    if (request.tolerance) settings.tolerance = request.tolerance;
    if (request.tolerance_auto) settings.tolerance.reset();
    return settings;
}

listen::PickupSettings ears_for(const Take& take, const ScoreRequest& request) {
    listen::PickupSettings ears;
    if (take.info) {
        ears.delay = take.info->delay;
        listen::read_pickup(take.info->pickup, ears);
    }
    listen::read_pickup(request.pickup, ears);
    return ears;
}

void move(Take& take, Seconds offset) {
    for (auto& timed : take.messages) timed.at = timed.at - offset;
    for (auto& at : take.interruptions) at = at - offset;
    take.end = take.end - offset;
}

/// What was heard, and how it is to be judged, beside the road map; not judged yet.
Report heard_in(const RoadMap& map, const Take& take, const listen::PickupSettings& ears,
                const assess::Settings& settings) {
    auto heard = listen::hear(take.messages, ears, take.end);
    Report report{map,
                  {std::move(heard.notes), ears.fretboard, take.end, take.interruptions},
                  settings,
                  {},
                  heard.cleaned,
                  heard.strings,
                  {},
                  "",
                  ""};
    if (take.info) {
        report.machine = take.info->machine;
        report.placement = band::placement_in_words(take.info->stage);
    }
    return report;
}

}  // namespace

Report hear_and_judge(const chart::Form& form, Take take, const ScoreRequest& request) {
    refuse_endless(take);
    const auto meant = map_meant(form, take, request);
    if (take.info && !request.passage) refuse_more_than_it_holds(take, meant);
    const auto settings = settings_for(take, request);
    if (settings.rhythm) refuse_rhythm(*settings.rhythm, meant);
    move(take, request.offset);

    auto report = heard_in(meant, take, ears_for(take, request), settings);
    // A take of ours knows how long it listened, also when it was cut short in a rest.
    const auto& notes = report.heard.notes;
    const Seconds last_onset = notes.empty() ? Seconds(0) : notes.back().on;
    const Seconds last_heard = take.info ? take.end : last_onset;
    const bool ended = take.info && take.info->ended && !request.passage;
    report.map = as_far_as_played(meant, ended, last_heard);
    report.assessment = assess::assess(report.map, report.heard, settings);
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
