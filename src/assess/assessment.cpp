#include "astray.hpp"
#include "habits.hpp"
#include "hand_moves.hpp"
#include "judge.hpp"
#include "own_time.hpp"
#include "part.hpp"
#include "reading.hpp"
#include "strum_list.hpp"
#include "time_alone.hpp"
#include "time_keeping.hpp"
#include "waits.hpp"
#include "weakest.hpp"

#include <compline/assess/assessment.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace compline::assess {

using time::Seconds;

namespace {

constexpr std::array<std::string_view, verdict_count> verdict_names = {
    "on_time", "pushed", "placed", "early", "late", "held", "laid_out", "missed", "astray"};
constexpr std::array<std::string_view, 4> tones_names = {"right", "wrong", "incomplete", "none"};

Change change_for(const Target& target, const Grid& grid) {
    Change change;
    change.time_through = target.time_through;
    change.bar = target.bar;
    change.beat = target.beat;
    change.section = target.section;
    change.from = target.from;
    change.to = target.to;
    change.at = grid.time_of(target.at);
    change.seam = target.seam;
    change.optional = target.optional;
    return change;
}

/// Within so much of an interruption no time can be trusted. It takes a quarter of a second at most
/// until a cable is seen to be out, or in again.
constexpr Seconds reach{1.0};

bool is_uncertain(Seconds at, const std::vector<Seconds>& interruptions) {
    const auto near =
        std::partition_point(interruptions.begin(), interruptions.end(),
                             [&](Seconds t) { return t < at && time::abs(t - at) > reach; });
    return near != interruptions.end() && time::abs(*near - at) <= reach;
}

/// Some of that time nobody could hear what was played.
bool was_unheard(Seconds from, Seconds to, const std::vector<listen::Unheard>& unheard) {
    return std::any_of(unheard.begin(), unheard.end(), [&](const listen::Unheard& span) {
        return from <= span.to + reach && to >= span.from - reach;
    });
}

Totals count(const std::vector<Change>& changes) {
    Totals totals;
    for (const Change& change : changes) {
        if (change.uncertain) {
            ++totals.uncertain;
            continue;
        }
        ++totals.changes;
        ++totals.verdicts[static_cast<std::size_t>(change.verdict)];
        if (change.tones == Tones::right) ++totals.right_tones;
    }
    return totals;
}

/// Once for what the take tells of its player, and once more with that.
template <typename Read>
Reading read_twice(const Performance& heard, const Targets& targets, const Grid& grid, Read read) {
    const auto first = read(Player{});
    const auto all = asynchronies(first.strums, grid.map(), heard.end);
    return read(learn(first, targets, grid, all));
}

Reading read_all(const Performance& heard, const Targets& targets, const Grid& grid) {
    if (heard.heard_by == listen::HeardBy::sound) {
        const auto strums = struck_by_sound(heard.notes);
        return read_twice(heard, targets, grid, [&](const Player& player) {
            return read_time_alone(targets, strums, grid, player, heard.end);
        });
    }
    const auto strums = sounding_strums(heard.notes, grid);
    const Shifts shifts(targets, grid.map());
    return read_twice(heard, targets, grid, [&](const Player& player) {
        return read(targets, shifts, strums, grid, player, heard.end);
    });
}

std::vector<ReadAs> readings(const Reading& reading) {
    std::vector<ReadAs> read_as;
    for (const auto& strum : reading.strums) read_as.push_back(strum.read_as);
    return read_as;
}

Change judge(const Evidence& evidence, std::size_t i, std::optional<Seconds> usual,
             std::vector<ReadAs>& read_as) {
    Change change = change_for(evidence.targets.due[i], evidence.grid);
    change.heard_by = evidence.heard_by;
    const auto& landing = evidence.reading.landings[i];
    if (!landing || was_held(evidence, i)) {
        judge_absence(evidence, i, change);
        if (landing) read_as[landing->strum] = ReadAs::again;
        return change;
    }
    judge_landing(evidence, i, change);
    if (evidence.knows_tones()) judge_tones(evidence, i, change, read_as);
    if (usual) change.relative = *change.lateness - *usual;
    return change;
}

std::vector<Change> judge_changes(const Evidence& evidence, const Performance& heard,
                                  std::optional<Seconds> usual, std::vector<ReadAs>& read_as) {
    std::vector<Change> changes;
    for (std::size_t i = 0; i < evidence.targets.size(); ++i) {
        if (evidence.due(i) > heard.end) break;
        const auto& landing = evidence.reading.landings[i];
        const bool no_time_left = tones_due_by(evidence.targets.due[i], evidence.grid) > heard.end;
        if (!landing && no_time_left) break;
        changes.push_back(judge(evidence, i, usual, read_as));
        // What did not land may have landed while nobody could hear it.
        auto& change = changes.back();
        const Seconds from = landing ? landing->first : change.at;
        const Seconds to = landing ? landing->first : std::min(evidence.end(i), heard.end);
        change.unheard = was_unheard(from, to, heard.unheard);
        change.uncertain = change.unheard || is_uncertain(from, heard.interruptions);
    }
    return changes;
}

Assessment assess_played(const roadmap::RoadMap& map, const Performance& heard,
                         const Settings& settings) {
    const Grid grid(map, settings);
    const auto targets = find_targets(map, map.position_at(heard.begin), settings.strictness);
    const auto reading = read_all(heard, targets, grid);
    auto all = asynchronies(reading.strums, map, heard.end);
    const auto by = own_time(reading, targets, grid, all, settings);
    const auto silences = silent_runs(map);
    auto followed = all;
    follow_through_silence(followed, silences, grid);
    const auto usual = usual_lateness(followed, reading.strums);
    static const std::vector<listen::Note> none;  // onsets are no notes
    const bool by_sound = heard.heard_by == listen::HeardBy::sound;
    const Evidence evidence{targets,       reading, by_sound ? none : heard.notes,
                            grid,          by.own,  heard.fretboard,
                            heard.heard_by};

    Assessment assessment;
    auto read_as = readings(reading);
    assessment.changes = judge_changes(evidence, heard, usual, read_as);
    mark_habits(assessment.changes);
    tell_hand_moves(evidence, assessment.changes);
    assessment.settled = std::min(reading.settled, assessment.changes.size());
    assessment.strums = list_strums(evidence, assessment.changes, read_as);
    assessment.astray = astray_stretches(assessment.changes, reading, targets, map);
    assessment.own_place = by.place;
    assessment.tolerance = by.own.on_beats.tolerance(grid.pace_at(time::Ticks(0)));
    const auto pushed =
        give_landings_their_beats(all, assessment.changes, reading.landings, grid, targets);
    // The judge goes by the beat; who keeps the time alone, by the player's own.
    follow_through_silence(all, silences, grid);
    if (settings.part) {
        keep_part(*settings.part, assessment);
        keep_part(*settings.part, map, all);
    }
    assessment.habits = find_habits(assessment.changes, assessment.strums);
    assessment.time = keep_time(all, pushed, silences, grid, heard.end);
    assessment.totals = count(assessment.changes);
    assessment.weakest =
        find_weakest(assessment.changes, settings.part.value_or(map.way().reach()));
    return assessment;
}

}  // namespace

std::string_view name_of(Verdict verdict) {
    return verdict_names[static_cast<std::size_t>(verdict)];
}

std::string_view name_of(Tones tones) { return tones_names[static_cast<std::size_t>(tones)]; }

double Change::time_cost() const {
    constexpr double worst_ms = 200;
    double sum = 0;
    if (verdict == Verdict::missed || verdict == Verdict::astray) sum += 1;
    if (wait) sum += 0.25;
    if (verdict == Verdict::early || verdict == Verdict::late) {
        const double off = lateness ? std::fabs(lateness->milliseconds()) : 0;
        sum += std::min(off, worst_ms) / worst_ms;
    }
    return sum;
}

double Change::tones_cost() const {
    if (tones == Tones::wrong) return 0.5;
    return tones == Tones::incomplete ? 0.25 : 0;
}

Assessment assess(const roadmap::RoadMap& map, const Performance& heard, const Settings& settings) {
    assert(!map.goes_on());
    if (has_waits(map)) return assess_played(map, without_waits(heard, map), settings);
    return assess_played(map, heard, settings);
}

int times_through_in(Seconds last_onset, const roadmap::RoadMap& map) {
    // A last chord struck early on the next downbeat does not make another time through.
    const double beats = map.tempi().beat_at(last_onset).count() - 1;
    const auto ticks = std::ceil(beats * static_cast<double>(time::quarter_note.count())) - 1;
    return map.place_at(time::Ticks(static_cast<std::int64_t>(ticks))).time_through;
}

}  // namespace compline::assess
