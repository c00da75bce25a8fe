#include "measure.d/weeks.hpp"

#include <compline/history/story.hpp>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

namespace compline::measure {

namespace {

using history::PlaceEvening;
using history::TrendPoint;
using history::TuneHistory;
using simulate::Chance;

constexpr int bars = 32;
constexpr int changes = 40;  // one a bar, two in every fourth
constexpr double steps_to_better = 7;
constexpr double missed_of_faults = 0.3;

struct Change {
    int bar = 1;
    time::BeatOfBar beat;
    std::string from;
    std::string to;
    double chance = 0;  ///< to be in time
};

std::vector<Change> a_tune(Chance& chance) {
    constexpr std::array chords = {"Fmaj7", "Dm7", "Gm7", "C7", "Am7", "D7", "Bbmaj7", "Em7b5"};
    const auto any = [&] { return std::string(chords.at(chance.below(chords.size()))); };
    std::vector<Change> tune;
    for (int bar = 1; bar <= bars; ++bar) {
        const auto at = [&](double beat) {
            const auto from = tune.empty() ? std::string() : tune.back().to;
            tune.push_back({bar, time::BeatOfBar(beat), from, any(), 0.4 + 0.4 * chance.uniform()});
        };
        at(1);
        if (bar % 4 == 0) at(3);
    }
    return tune;
}

/// What is played of each change on an evening.
std::vector<int> times_played(const std::vector<Change>& tune, Chance& chance) {
    constexpr int takes = 3;
    constexpr int hard = 5;
    constexpr int around = 2;
    std::vector<int> hardest(tune.size());
    for (std::size_t i = 0; i < tune.size(); ++i) hardest[i] = static_cast<int>(i);
    std::sort(hardest.begin(), hardest.end(), [&](int one, int other) {
        return tune[static_cast<std::size_t>(one)].chance <
               tune[static_cast<std::size_t>(other)].chance;
    });
    std::vector<int> times(tune.size());
    for (int take = 0; take < takes; ++take) {
        const bool whole = chance.below(2) == 0;
        const int middle = hardest[chance.below(hard)];
        for (int i = 0; i < static_cast<int>(tune.size()); ++i) {
            if (whole || std::abs(i - middle) <= around)
                times[static_cast<std::size_t>(i)] += whole ? 3 : 12;
        }
    }
    return times;
}

PlaceEvening played(const Change& change, const std::string& date, int times, double shift,
                    Chance& chance) {
    PlaceEvening row;
    row.date = date;
    row.bar = change.bar;
    row.beat = change.beat;
    row.section = "A";
    row.from = change.from;
    row.to = change.to;
    const double likely = std::clamp(change.chance + shift, 0.02, 0.98);
    for (int i = 0; i < times; ++i) {
        ++row.sums.of;
        if (chance.uniform() < likely) {
            ++row.sums.in_time;
            ++row.sums.right;
            ++row.sums.both;
        } else if (chance.uniform() < missed_of_faults) {
            ++row.missed;
            row.sums.cost += 1;
        } else {
            ++row.late;
            row.late_ms += 90;
            row.sums.cost += 0.45;
        }
    }
    return row;
}

void add_evening(TuneHistory& history, const std::vector<Change>& tune, int day, double shift,
                 Chance& chance) {
    history::TuneEvening evening;
    evening.date = history::date_of(day);
    evening.seconds = 900;
    evening.takes = 3;
    evening.usual_bpm = 120;
    const auto times = times_played(tune, chance);
    evening.whole_times = *std::min_element(times.begin(), times.end());
    for (std::size_t i = 0; i < tune.size(); ++i) {
        if (times[i] == 0) continue;
        history.places.push_back(played(tune[i], evening.date, times[i], shift, chance));
        const auto& sums = history.places.back().sums;
        evening.sums.of += sums.of;
        evening.sums.in_time += sums.in_time;
        evening.sums.right += sums.right;
        evening.sums.both += sums.both;
        evening.sums.cost += sums.cost;
    }
    history.evenings.push_back(evening);
}

TuneHistory a_history(int number) {
    TuneHistory history;
    history.tune.id = number;
    history.tune.title = "Tune " + std::to_string(number);
    history.bars = bars;
    history.chart_bpm = 120;
    return history;
}

history::Course plain_course(const TuneHistory& tune) {
    std::vector<TrendPoint> points;
    for (const auto& evening : tune.evenings) {
        const double day = *history::days_of(evening.date);
        points.push_back({day, evening.sums.share_in_time()});
    }
    return history::trend_of(points).course;
}

}  // namespace

TuneHistory simulated_weeks(const SimulatedWeeks& weeks, Chance& chance) {
    const auto tune = a_tune(chance);
    auto history = a_history(1);
    int day = *history::days_of("2026-09-01");
    for (int i = 0; i < weeks.evenings; ++i) {
        const double shift = weeks.better * i / steps_to_better + weeks.noise * chance.scatter();
        add_evening(history, tune, day, shift, chance);
        day += 1 + static_cast<int>(chance.below(4));
    }
    return history;
}

TrendsFound trends_found(const SimulatedWeeks& weeks, int players, std::uint64_t seed) {
    Chance chance(seed);
    TrendsFound found;
    for (; found.players < players; ++found.players) {
        const auto tune = simulated_weeks(weeks, chance);
        const auto course = history::story_of(tune).trend.course;
        found.better += course == history::Course::better ? 1 : 0;
        found.worse += course == history::Course::worse ? 1 : 0;
        const auto plain = plain_course(tune);
        found.plainly_better += plain == history::Course::better ? 1 : 0;
        found.plainly_worse += plain == history::Course::worse ? 1 : 0;
    }
    return found;
}

std::vector<TuneHistory> years_of_practice(int evenings, int tunes, std::uint64_t seed) {
    Chance chance(seed);
    std::vector<TuneHistory> years;
    std::vector<std::vector<Change>> written;
    for (int number = 0; number < tunes; ++number) {
        years.push_back(a_history(number));
        written.push_back(a_tune(chance));
    }
    const int first = *history::days_of("2026-11-30") - evenings / tunes;
    for (int i = 0; i < evenings; ++i) {
        const auto number = static_cast<std::size_t>(i % tunes);
        add_evening(years[number], written[number], first + i / tunes, 0, chance);
    }
    return years;
}

}  // namespace compline::measure
