#include "../assess/median.hpp"
#include "clean_tempo.hpp"
#include "place_rows.hpp"
#include "things.hpp"
#include "transitions.hpp"

#include <compline/practice/ladder.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace compline::history {

namespace {

constexpr int bars_of_work = 4;
constexpr int too_long_stuck = 3;  // evenings
constexpr double a_fifth = 0.2;
constexpr double a_tenth = 0.1;
constexpr int repeats = 8;  // common practice, no source
constexpr std::size_t fewest_tunes = 2;
constexpr int fewest_transition_evenings = 3;
constexpr double much_costlier = 2;

Task task_for(int stuck_for) {
    constexpr std::array tasks = {Task::two_bars, Task::slower, Task::other_grips};
    if (stuck_for < too_long_stuck) return Task::ladder;
    return tasks.at(static_cast<std::size_t>(stuck_for - too_long_stuck) % tasks.size());
}

/// So many bars, the second of them this one: arriving is what needs practice. Never round the end
/// of the form.
void set_bars(Thing& thing, int bar, int bars, const TuneHistory& tune) {
    bars = std::min(bars, tune.bars);
    thing.from_bar = std::clamp(bar - 1, 1, tune.bars - bars + 1);
    thing.to_bar = thing.from_bar + bars - 1;
}

void set_tempo(Thing& thing, const TuneHistory& tune) {
    const auto range = ladder_for(tune, thing.from_bar, thing.to_bar);
    thing.from_bpm = range.from_bpm;
    thing.to_bpm = range.to_bpm;
    thing.times = 0;
    if (thing.task == Task::ladder) return;
    if (thing.task == Task::slower) thing.from_bpm = slowed(usual_tempo(tune), a_fifth);
    thing.to_bpm = thing.from_bpm;
    thing.times = repeats;
}

PlannedThing place_thing(const TuneHistory& tune, PlaceStory story) {
    PlannedThing planned;
    planned.beats_a_bar = tune.beats_a_bar;
    auto& thing = planned.thing;
    thing.kind = ThingKind::place;
    thing.tune = tune.tune;
    thing.task = task_for(story.stuck_for);
    set_bars(thing, story.bar, thing.task == Task::two_bars ? 2 : bars_of_work, tune);
    set_tempo(thing, tune);
    thing.last_played = tune.evenings.back().date;
    thing.place = std::move(story);
    return planned;
}

/// The first of the tune's weak places that does not get better.
std::optional<PlaceStory> weakest_of(const TuneHistory& tune) {
    const auto lately = lately_from(tune);
    auto places = rows_by_place(tune, "");
    keep_weak(places, lately);
    for (const auto& rows : places) {
        if (rows.front()->bar > tune.bars) continue;  // in the coda: no bars to ask for
        auto story = place_story(rows, lately);
        if (story.trend.course != Course::better) return story;
    }
    return std::nullopt;
}

double cost_lately(const ChangeSums& sums) { return sums.of == 0 ? 0 : sums.cost / sums.of; }

/// Two chords in all tunes.
struct SharedTransition {
    TransitionRows all;
    PlaceEvenings lately;
    std::vector<const TuneHistory*> weak_in;
};

class SharedTransitions {
  public:
    void add_tune(const TuneHistory& tune) {
        const auto lately = lately_from(tune);
        Transitions of_tune;
        add_transitions(of_tune, tune, "");
        for (auto& [sound, transition] : of_tune) {
            by_date(transition.rows);
            add_one(shared_[sound], transition, lately, tune);
        }
    }

    /// The costliest that is worth a drill.
    [[nodiscard]] std::optional<SharedTransition> worst() {
        std::optional<SharedTransition> worst;
        for (auto& [sound, one] : shared_) {
            if (one.weak_in.size() < fewest_tunes) continue;
            by_date(one.lately);
            const double cost = cost_lately(sums_of(one.lately));
            if (worst && cost <= cost_lately(sums_of(worst->lately))) continue;
            if (is_worth_a_drill(one)) worst = one;
        }
        return worst;
    }

  private:
    static void by_date(PlaceEvenings& rows) {
        std::stable_sort(rows.begin(), rows.end(), [](const auto* one, const auto* other) {
            return one->date < other->date;
        });
    }

    void add_one(SharedTransition& shared, const TransitionRows& transition,
                 const std::string& lately, const TuneHistory& tune) {
        if (shared.all.rows.empty()) shared.all = {transition.from, transition.to, {}};
        for (const auto* row : transition.rows) {
            shared.all.rows.push_back(row);
            if (row->date < lately) continue;
            shared.lately.push_back(row);
            add(total_, row->sums);
        }
        if (is_weak(transition.rows, lately)) shared.weak_in.push_back(&tune);
    }

    [[nodiscard]] bool is_worth_a_drill(SharedTransition& one) const {
        const auto sums = sums_of(one.lately);
        ChangeSums rest = total_;
        rest.of -= sums.of;
        rest.cost -= sums.cost;
        if (cost_lately(sums) < much_costlier * cost_lately(rest) ||
            evenings_of(one.lately) < fewest_transition_evenings)
            return false;
        by_date(one.all.rows);
        return trend_of(by_evening(one.all.rows)).course != Course::better;
    }

    std::map<std::pair<std::string, std::string>, SharedTransition> shared_;
    ChangeSums total_;  ///< lately, over all transitions
};

PlannedThing transition_thing(const SharedTransition& worst) {
    PlannedThing planned;
    auto& thing = planned.thing;
    thing.kind = ThingKind::transition;
    thing.from_bar = 1;
    thing.to_bar = bars_of_work;
    std::vector<double> tempi;
    for (const auto* tune : worst.weak_in) {
        tempi.push_back(usual_tempo(*tune));
        thing.titles.push_back(tune->tune.title);
    }
    const double usual = std::round(assess::median(std::move(tempi)));
    thing.from_bpm = slowed(usual, a_tenth);
    thing.to_bpm = std::max(usual, thing.from_bpm + 1);
    thing.times = 0;
    thing.transition = transition_story(worst.all, "");
    thing.transition->bars.clear();
    thing.transition->lately = sums_of(worst.lately);
    thing.changes = fmt::format("{0} | {1} | {0} | {1}", worst.all.from, worst.all.to);
    return planned;
}

}  // namespace

std::optional<PlannedThing> weakest_place(const PlayedTunes& tunes) {
    std::optional<PlannedThing> weakest;
    double cost = 0;
    for (const auto* tune : tunes) {
        auto story = weakest_of(*tune);
        if (!story || cost_lately(story->lately) <= cost) continue;
        cost = cost_lately(story->lately);
        weakest = place_thing(*tune, std::move(*story));
    }
    return weakest;
}

std::optional<PlannedThing> weak_transition(const PlayedTunes& tunes) {
    SharedTransitions shared;
    for (const auto* tune : tunes) shared.add_tune(*tune);
    const auto worst = shared.worst();
    if (!worst) return std::nullopt;
    return transition_thing(*worst);
}

}  // namespace compline::history
