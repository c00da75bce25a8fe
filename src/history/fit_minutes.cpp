#include "fit_minutes.hpp"

#include <compline/practice/ladder.hpp>

#include <algorithm>
#include <cmath>

namespace compline::history {

namespace {

// Common practice, no source: of three times through on a ladder one is not clean; who looks for
// other grips needs two minutes for it before playing.
constexpr double tries = 1.5;
constexpr double looking_seconds = 120;
constexpr double rung = 0.04;  // as practice::Ladder
constexpr int fewest_times = 2;

double seconds_through(const PlannedThing& planned, int bars, double bpm) {
    return 60.0 * bars * planned.beats_a_bar / bpm;
}

double ladder_seconds(const PlannedThing& planned) {
    const auto& thing = planned.thing;
    const int bars = thing.to_bar - thing.from_bar + 1;
    const int wanted = bars >= practice::Ladder::many_bars ? 1 : 2;
    double seconds = 0;
    for (time::Bpm tempo(thing.from_bpm);; tempo = practice::moved(tempo, rung)) {
        const double bpm = std::min(tempo.count(), thing.to_bpm);
        seconds += tries * wanted * seconds_through(planned, bars, bpm);
        seconds += seconds_through(planned, 1, bpm);  // the sticks
        if (bpm >= thing.to_bpm) return seconds;
    }
}

double seconds_of(const PlannedThing& planned) {
    const auto& thing = planned.thing;
    if (thing.times == 0) return ladder_seconds(planned);
    const int bars = thing.to_bar - thing.from_bar + 1;
    const bool looks = thing.kind == ThingKind::place && thing.task == Task::other_grips;
    return thing.times * seconds_through(planned, bars, thing.from_bpm) +
           (looks ? looking_seconds : 0);
}

bool ends_the_evening(const Thing& thing) {
    return thing.kind == ThingKind::due || thing.kind == ThingKind::whole_tune;
}

PlannedThing shorter(PlannedThing planned) {
    auto& thing = planned.thing;
    if (thing.kind == ThingKind::homework || ends_the_evening(thing)) return planned;
    if (thing.times > 0) thing.times = std::max(thing.times / 2, fewest_times);
    if (thing.times == 0) thing.to_bpm = std::round((thing.from_bpm + thing.to_bpm) / 2);
    return planned;
}

// A loop of ten minutes asks for a rest; a tune played five times in a row is not heard any more
// (common practice, no source).
constexpr int most_loops = 32;
constexpr int most_tunes = 4;
constexpr int most_minutes_of_a_loop = 10;

/// Once more, or half as many times again; none where that is enough for an evening. How long a
/// ladder takes, the player's hands decide.
std::optional<PlannedThing> longer(PlannedThing planned) {
    auto& thing = planned.thing;
    const bool is_tune = ends_the_evening(thing);
    if (thing.kind == ThingKind::homework || thing.kind == ThingKind::first_take) return {};
    if (thing.times == 0) return {};
    thing.times += is_tune ? 1 : std::max(thing.times / 2, 1);
    const bool is_enough =
        is_tune ? thing.times > most_tunes
                : thing.times > most_loops || minutes_of(planned) > most_minutes_of_a_loop;
    if (is_enough) return {};
    return planned;
}

std::vector<Thing> with_minutes(const std::vector<PlannedThing>& things) {
    std::vector<Thing> done;
    for (const auto& planned : things) {
        done.push_back(planned.thing);
        if (planned.thing.kind != ThingKind::first_take) done.back().minutes = minutes_of(planned);
    }
    return done;
}

int sum_of(const std::vector<Thing>& things) {
    int sum = 0;
    for (const auto& thing : things) sum += thing.minutes;
    return sum;
}

/// The shortest is made longer, as long as there is time.
std::vector<PlannedThing> filled(std::vector<PlannedThing> things, int minutes) {
    for (;;) {
        std::optional<std::vector<PlannedThing>> best;
        int shortest = minutes;
        for (std::size_t i = 0; i < things.size(); ++i) {
            const auto more = longer(things[i]);
            if (!more || minutes_of(things[i]) >= shortest) continue;
            auto with_more = things;
            with_more[i] = *more;
            if (sum_of(with_minutes(with_more)) > minutes) continue;
            shortest = minutes_of(things[i]);
            best = std::move(with_more);
        }
        if (!best) return things;
        things = *std::move(best);
    }
}

void drop_one(std::vector<PlannedThing>& things) {
    things.erase(things.size() > 2 ? things.begin() + 1 : things.end() - 1);
}

}  // namespace

int minutes_of(const PlannedThing& planned) {
    return std::max(static_cast<int>(std::ceil(seconds_of(planned) / 60)), 1);
}

std::vector<Thing> fitted(std::vector<PlannedThing> things, std::optional<int> minutes) {
    for (;; drop_one(things)) {
        auto full = with_minutes(things);
        if (!minutes) return full;
        if (sum_of(full) <= *minutes) return with_minutes(filled(std::move(things), *minutes));
        auto brief = things;
        std::transform(brief.begin(), brief.end(), brief.begin(), shorter);
        full = with_minutes(brief);
        if (things.size() == 1 || sum_of(full) <= *minutes) return full;
    }
}

}  // namespace compline::history
