#include "judge.hpp"
#include "time_keeping.hpp"
#include "weakest.hpp"

#include <compline/assess/assessment.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace compline::assess {

using time::Seconds;

namespace {

constexpr std::array<std::string_view, verdict_count> verdict_names = {
    "on_time", "pushed", "early", "late", "held", "laid_out", "missed"};
constexpr std::array<std::string_view, 4> tones_names = {"right", "wrong", "incomplete", "none"};

Change change_for(const Target& target, const Grid& grid) {
    Change change;
    change.pass = target.pass;
    change.bar = target.bar;
    change.beat = target.beat;
    change.section = target.section;
    change.from = target.from;
    change.to = target.to;
    change.at = grid.time_of(target.at);
    change.seam = target.seam;
    return change;
}

/// Within a second of an interruption no time can be trusted.
bool is_uncertain(Seconds at, const std::vector<Seconds>& interruptions) {
    constexpr Seconds reach{1.0};
    const auto near =
        std::partition_point(interruptions.begin(), interruptions.end(),
                             [&](Seconds t) { return t < at && time::abs(t - at) > reach; });
    return near != interruptions.end() && time::abs(*near - at) <= reach;
}

Totals count(const std::vector<Change>& changes) {
    Totals totals;
    for (const Change& change : changes) {
        ++totals.changes;
        ++totals.verdicts[static_cast<std::size_t>(change.verdict)];
        if (change.tones == Tones::right) ++totals.right_tones;
    }
    return totals;
}

}  // namespace

std::string_view name_of(Verdict verdict) {
    return verdict_names[static_cast<std::size_t>(verdict)];
}

std::string_view name_of(Tones tones) { return tones_names[static_cast<std::size_t>(tones)]; }

double Change::cost() const {
    constexpr double worst_ms = 200;
    double sum = 0;
    if (verdict == Verdict::missed) sum += 1;
    if (verdict == Verdict::early || verdict == Verdict::late) {
        const double off = lateness ? std::fabs(lateness->milliseconds()) : 0;
        sum += std::min(off, worst_ms) / worst_ms;
    }
    if (tones == Tones::wrong) sum += 0.5;
    if (tones == Tones::incomplete) sum += 0.25;
    return sum;
}

Assessment assess(const chart::Form& form, const Performance& performance,
                  const time::Groove& groove, const std::vector<listen::Note>& heard,
                  const guitar::Fretboard& fretboard, const Settings& settings) {
    const Grid grid(groove, form.chart.meter, settings, performance.route.kicks(form));
    const auto targets = find_targets(form, performance.route, settings.strictness);
    auto strums = sounding_strums(heard);
    LandingFinder finder(targets, strums, grid);
    const auto landings = finder.find();
    mark_fills(strums, landings);
    const Evidence evidence{targets, strums, heard, grid, finder, landings, fretboard};
    auto all = asynchronies(strums, groove, performance.end);
    follow_through_silence(all, performance, grid);
    const auto usual = usual_lateness(all, landings);

    Assessment assessment;
    for (std::size_t i = 0; i < targets.due.size(); ++i) {
        Change change = change_for(targets.due[i], grid);
        if (change.at > performance.end) break;
        const bool no_time_left = tones_due_by(targets.due[i], grid) > performance.end;
        if (!landings[i] && no_time_left) break;
        if (landings[i]) {
            judge_landing(evidence, i, change);
            judge_tones(evidence, i, change);
            if (usual) change.relative = *change.lateness - *usual;
        } else {
            judge_absence(evidence, i, change);
        }
        change.uncertain =
            is_uncertain(landings[i] ? landings[i]->first : change.at, performance.interruptions);
        assessment.changes.push_back(std::move(change));
    }
    std::set<std::int64_t> pushed;
    if (settings.rhythm.kind != Rhythm::Kind::free) {
        pushed = give_landings_their_beats(all, assessment.changes, landings, grid, targets);
    }
    assessment.time = keep_time(all, pushed, grid, performance, form);
    assessment.totals = count(assessment.changes);
    assessment.weakest = find_weakest(assessment.changes, performance.route.reach());
    return assessment;
}

int times_through_in(Seconds last_onset, const chart::Route& route, time::Meter meter,
                     time::Bpm tempo) {
    // A last chord struck early on the next downbeat does not make another time through.
    const double beats = last_onset / tempo.beat() - 1;
    const auto ticks = std::ceil(beats * static_cast<double>(time::quarter_note.count())) - 1;
    return route.place(time::Ticks(static_cast<std::int64_t>(ticks)), meter).time + 1;
}

}  // namespace compline::assess
