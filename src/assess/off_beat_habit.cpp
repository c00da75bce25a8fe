#include "off_beat_habit.hpp"

#include "median.hpp"

#include <algorithm>
#include <cmath>

namespace compline::assess {

namespace {

constexpr std::size_t fewest_strums = 12;
/// What nobody would call out of time at any tempo: the narrowest tolerance of the judge.
constexpr double margin_ms = 25;
/// On a beat further off is late, whatever the off-beats do: the widest tolerance.
constexpr double beat_reach_ms = 60;
constexpr double sure = 3;             // standard errors
constexpr double worst_ms = 200;       // as the cost of a late chord
constexpr double cost_of_strum = 0.1;  // few of them bring a change
/// Of a normal distribution: standard deviations in a median deviation, and the standard error of
/// a median in that of a mean.
constexpr double normal = 1.4826;
constexpr double of_median = 1.2533;

using Milliseconds = std::vector<double>;

/// Where they lie, whatever a few of them do.
struct Lie {
    double at = 0;
    double error = 0;
};

Lie lie_of(const Milliseconds& offs) {
    Lie lie{median(offs), 0};
    Milliseconds apart;
    for (const double off : offs) apart.push_back(std::fabs(off - lie.at));
    lie.error = of_median * normal * median(apart) / std::sqrt(static_cast<double>(offs.size()));
    return lie;
}

bool is_struck_chord(ReadAs read_as) {
    return read_as == ReadAs::landing || read_as == ReadAs::again;
}

}  // namespace

std::optional<Habit> off_beat_habit(const std::vector<ReadStrum>& strums) {
    Milliseconds on;
    Milliseconds off;
    for (const auto& strum : strums) {
        if (!is_struck_chord(strum.read_as)) continue;
        const double by = strum.asynchrony.milliseconds();
        if (strum.off_beat) {
            off.push_back(by);
        } else if (std::fabs(by) <= beat_reach_ms) {
            on.push_back(by);
        }
    }
    if (on.size() < fewest_strums || off.size() < fewest_strums) return std::nullopt;
    const auto beats = lie_of(on);
    const auto between = lie_of(off);
    const double by = between.at - beats.at;
    if (std::fabs(by) < margin_ms ||
        std::fabs(by) < sure * std::hypot(beats.error, between.error)) {
        return std::nullopt;
    }
    Habit habit;
    habit.kind = HabitKind::off_beats;
    habit.fault = by < 0 ? HabitFault::rushed : HabitFault::dragged;
    habit.of = static_cast<int>(off.size());
    habit.cases = static_cast<int>(std::count_if(off.begin(), off.end(), [&](double one) {
        return (by < 0 ? beats.at - one : one - beats.at) >= margin_ms;
    }));
    habit.mean_ms = by;
    habit.cost = habit.cases * cost_of_strum * std::min(std::fabs(by), worst_ms) / worst_ms;
    return habit;
}

}  // namespace compline::assess
