#include "evening_plan.hpp"

#include <algorithm>
#include <cmath>

namespace compline::month {

namespace {

using simulate::Chance;

constexpr int weeks_without = 3;
constexpr int evening_hardly_played = 5;

int between(Chance& chance, int from, int to) {
    return from + static_cast<int>(chance.below(static_cast<std::uint64_t>(to - from) + 1));
}

/// A tune that is left for weeks is the first that is played, and the first when the last week
/// begins.
std::optional<std::size_t> taken_up(const Pupil& pupil, const EveningDate& date, int weeks) {
    const bool now = date.begins_week && (date.week == 0 || date.week + 1 == weeks);
    const auto left = std::find_if(pupil.works.begin(), pupil.works.end(),
                                   [](const Work& work) { return work.left_for_weeks; });
    if (!now || left == pupil.works.end()) return std::nullopt;
    return static_cast<std::size_t>(left - pupil.works.begin());
}

std::size_t choose_work(const Pupil& pupil, int week, int weeks, Chance& chance) {
    std::vector<double> often;
    double sum = 0;
    for (const auto& work : pupil.works) {
        sum += is_left_alone(work, week, weeks) ? 0 : work.how_often;
        often.push_back(sum);
    }
    const double drawn = chance.uniform() * sum;
    const auto chosen = std::upper_bound(often.begin(), often.end(), drawn);
    return static_cast<std::size_t>(std::min(chosen - often.begin(), std::ssize(often) - 1));
}

AskedTake whole(const Tune& tune, const Work& work, int evening) {
    AskedTake asked;
    asked.bars = tune.form.whole();
    asked.tempo = time::Bpm(true_tempo(work, evening));
    asked.times = work.times;
    return asked;
}

AskedTake loop(const Work& work, int evening, Chance& chance) {
    AskedTake asked;
    asked.what = What::loop;
    asked.bars = work.loops[chance.below(work.loops.size())];
    asked.tempo = time::Bpm(std::round(true_tempo(work, evening) * 0.95));
    asked.times = between(chance, 6, 10);
    asked.until_stopped = chance.below(3) != 0;
    return asked;
}

AskedTake ladder(const Work& work, int evening, Chance& chance) {
    const double tempo = true_tempo(work, evening);
    auto asked = loop(work, evening, chance);
    asked.what = What::ladder;
    asked.until_stopped = false;
    asked.ladder = roadmap::AskedLadder{time::Bpm(std::round(tempo * 0.80)),
                                        time::Bpm(std::round(tempo * 1.04))};
    asked.tempo = asked.ladder->from;
    return asked;
}

AskedTake typed(const Tune& drill, Chance& chance) {
    AskedTake asked;
    asked.what = What::drill;
    asked.bars = drill.form.whole();
    asked.tempo = time::Bpm(between(chance, 20, 24) * 5);
    asked.times = between(chance, 6, 10);
    asked.until_stopped = true;
    return asked;
}

}  // namespace

bool is_left_alone(const Work& work, int week, int weeks) {
    if (!work.left_for_weeks) return false;
    const int first = std::max(1, (weeks - weeks_without) / 2);
    return week >= first && week < std::min(first + weeks_without, weeks - 1);
}

std::vector<PlannedTake> plan_evening(const Pupil& pupil, const std::vector<Tune>& tunes,
                                      const Tune& drill, const EveningDate& date, int weeks,
                                      Chance& chance) {
    const auto main =
        taken_up(pupil, date, weeks).value_or(choose_work(pupil, date.week, weeks, chance));
    const auto& work = pupil.works[main];
    std::vector<PlannedTake> takes;
    const bool once = pupil.once_hardly_plays && date.number == evening_hardly_played;
    const int wanted = between(chance, 2, once ? 4 : 5);
    if (chance.uniform() < 0.18) takes.push_back({main, typed(drill, chance), false});
    const auto second = choose_work(pupil, date.week, weeks, chance);
    const bool two_tunes = wanted >= 3 && second != main && chance.uniform() < 0.5;
    if (two_tunes) {
        const auto asked = whole(tunes[second], pupil.works[second], date.number);
        takes.push_back({second, asked, false});
    }
    while (static_cast<int>(takes.size()) + 1 < wanted) {
        const bool climbs = chance.uniform() < 0.4;
        const bool plays = !climbs && chance.uniform() < 0.3;
        const auto asked = climbs  ? ladder(work, date.number, chance)
                           : plays ? whole(tunes[main], work, date.number)
                                   : loop(work, date.number, chance);
        takes.push_back({main, asked, false});
    }
    takes.push_back({main, whole(tunes[main], work, date.number), false});
    if (once) takes.push_back({main, whole(tunes[main], work, date.number), true});
    return takes;
}

}  // namespace compline::month
