#include "clean_tempo.hpp"
#include "place_rows.hpp"
#include "things.hpp"

#include <compline/practice/ladder.hpp>

#include <algorithm>
#include <array>

namespace compline::history {

namespace {

constexpr int bars_of_work = 4;
constexpr int too_long_stuck = 3;  // evenings
constexpr double a_fifth = 0.2;
constexpr int repeats = 8;  // common practice, no source

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
    const auto places = rows_by_place(tune, lately);
    for (const auto i : weakest_first(places)) {
        const auto& place = *places[i].front();
        if (place.bar > tune.bars) continue;  // in the coda: no bars to ask for
        auto story = place_story(rows_of(tune, place, ""), lately);
        if (story.trend.course != Course::better) return story;
    }
    return std::nullopt;
}

}  // namespace

std::optional<PlannedThing> weakest_place(const PlayedTunes& tunes) {
    std::optional<PlannedThing> weakest;
    double most = 0;
    for (const auto* tune : tunes) {
        auto story = weakest_of(*tune);
        const double cost = story ? story->lately.cost / story->lately.of : 0;
        if (cost <= most) continue;
        most = cost;
        weakest = place_thing(*tune, std::move(*story));
    }
    return weakest;
}

}  // namespace compline::history
