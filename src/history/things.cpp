#include "things.hpp"

#include "clean_tempo.hpp"

#include <algorithm>
#include <tuple>

namespace compline::history {

namespace {

constexpr int four_weeks_ago = 28;
constexpr double below_clean = 0.1;

bool can_be_played(const TuneHistory& tune) {
    return !tune.tune.drill && tune.bars > 0 && !tune.evenings.empty();
}

const TuneHistory* tune_of(const Homework& homework, const std::vector<TuneHistory>& tunes) {
    const auto found = std::find_if(tunes.begin(), tunes.end(), [&](const auto& tune) {
        return tune.tune.id == homework.tune.id;
    });
    return found == tunes.end() ? nullptr : &*found;
}

/// Who was clean near the top yesterday need not begin at the bottom.
double homework_start(const Homework& homework, const TuneHistory* tune) {
    const auto clean = tune ? last_clean(*tune, homework.from_bar, homework.to_bar) : std::nullopt;
    if (!clean) return homework.from_bpm;
    const double start = slowed(std::min(*clean, homework.to_bpm), below_clean);
    return std::clamp(start, homework.from_bpm, homework.to_bpm);
}

PlannedThing homework_thing(const Homework& homework, const TuneHistory* tune, int days_done) {
    PlannedThing planned;
    auto& thing = planned.thing;
    thing.kind = ThingKind::homework;
    thing.tune = tune ? tune->tune : homework.tune;
    thing.from_bar = homework.from_bar;
    thing.to_bar = homework.to_bar;
    thing.from_bpm = homework_start(homework, tune);
    thing.to_bpm = homework.to_bpm;
    thing.times = 0;
    thing.homework = homework;
    thing.days_done = days_done;
    if (!tune) return planned;
    planned.beats_a_bar = tune->beats_a_bar;
    if (!tune->evenings.empty()) thing.last_played = tune->evenings.back().date;
    return planned;
}

}  // namespace

PlayedTunes playable(const std::vector<TuneHistory>& tunes) {
    PlayedTunes played;
    for (const auto& tune : tunes) {
        if (can_be_played(tune)) played.push_back(&tune);
    }
    return played;
}

PlayedTunes played_lately(const PlayedTunes& tunes, const std::string& today) {
    std::string last;
    for (const auto* tune : tunes) last = std::max(last, tune->evenings.back().date);
    const auto end = std::min(days_of(today).value_or(0), days_of(last).value_or(0));
    const auto first = date_of(end - four_weeks_ago);
    PlayedTunes lately;
    for (const auto* tune : tunes) {
        if (tune->evenings.back().date >= first) lately.push_back(tune);
    }
    return lately;
}

std::vector<PlannedThing> homework_things(const std::vector<TuneHistory>& tunes,
                                          std::vector<Homework> homework,
                                          const std::string& today) {
    std::stable_sort(homework.begin(), homework.end(), [](const auto& one, const auto& other) {
        return std::tie(one.given, one.id) < std::tie(other.given, other.id);
    });
    std::vector<PlannedThing> things;
    for (const auto& piece : homework) {
        const auto* const tune = tune_of(piece, tunes);
        const auto days = tune ? done_on(piece, tune->runs) : std::vector<std::string>();
        if (days.size() >= days_wanted || (!days.empty() && days.back() == today)) continue;
        things.push_back(homework_thing(piece, tune, static_cast<int>(days.size())));
    }
    return things;
}

PlannedThing whole_tune(const TuneHistory& tune) {
    PlannedThing planned;
    planned.beats_a_bar = tune.beats_a_bar;
    auto& thing = planned.thing;
    thing.kind = ThingKind::whole_tune;
    thing.tune = tune.tune;
    thing.from_bar = 1;
    thing.to_bar = tune.bars;
    thing.from_bpm = std::round(last_clean(tune).value_or(usual_tempo(tune)));
    thing.to_bpm = thing.from_bpm;
    thing.last_played = tune.evenings.back().date;
    thing.due = spacing_of(tune).due();
    return planned;
}

std::optional<PlannedThing> tune_due(const PlayedTunes& tunes, const std::string& today) {
    std::optional<PlannedThing> most;
    for (const auto* tune : tunes) {
        const auto due = spacing_of(*tune).due();
        if (due.empty() || due > today || (most && due >= most->thing.due)) continue;
        most = whole_tune(*tune);
        most->thing.kind = ThingKind::due;
    }
    return most;
}

}  // namespace compline::history
