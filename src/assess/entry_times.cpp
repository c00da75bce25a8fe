#include "entry_times.hpp"

#include <algorithm>
#include <cmath>

namespace compline::assess {

using time::eighth_note;
using time::Seconds;
using time::Ticks;

namespace {

/// Of a hand at one grid point.
constexpr Seconds scatter{0.020};
/// A change that comes in nowhere in particular: a late hand.
constexpr double anywhere = 0.03;
constexpr double repeat_anywhere = 0.004;
constexpr double repeat_on_grid = 0.1;
/// Beyond so many standard deviations nothing is added.
constexpr double far = 5;

double bell(Seconds distance) {
    const double z = distance / scatter;
    return z > far ? 0 : std::exp(-z * z / 2);
}

}  // namespace

Seconds EntryTimes::EntryWindow::distance(Seconds t) const {
    return std::max({from - t, t - to, Seconds(0)});
}

EntryTimes::EntryTimes(const Targets& targets, const Grid& grid, const Player& player)
    : grid_(grid), player_(player) {
    for (std::size_t i = 0; i < targets.size(); ++i) {
        const auto& target = targets.due[i];
        const auto& pace = grid.pace_at(target.at);
        due_.push_back(grid.time_of(target.at));
        due_from_.push_back(due_.back() - pace.tolerance);
        over_.push_back(grid.time_of(targets.end(i)) + pace.tolerance);
        earliest_.push_back(due_.back() - (pace.beat + pace.tolerance));
        first_window_.push_back(windows_.size());
        add_windows(target);
    }
    first_window_.push_back(windows_.size());
}

void EntryTimes::add_windows(const Target& target) {
    for (int eighths = first_entry; eighths <= last_entry; ++eighths) {
        const Ticks in = eighth_note * eighths;
        if (in >= target.length) break;
        windows_.push_back(window(target.at + in));
        auto& here = windows_.back();
        here.likely = player_.entry(eighths);
        // A push may be as straight as it likes.
        if (eighths == -1) here.from = std::min(here.from, grid_.straight_time_of(target.at + in));
    }
}

/// From the beat to where the player stands; of an off-beat, from the feel's to the player's own.
EntryTimes::EntryWindow EntryTimes::window(Ticks at) const {
    const Seconds due = grid_.time_of(at);
    const Seconds own =
        due + (grid_.is_off_beat(at) && player_.off_beat ? *player_.off_beat : player_.place);
    return {std::min(due, own), std::max(due, own), 0};
}

double EntryTimes::of_landing(Seconds t, std::size_t target) const {
    double likely = anywhere;
    for (auto i = first_window_[target]; i < first_window_[target + 1]; ++i) {
        likely += windows_[i].likely * bell(windows_[i].distance(t));
    }
    return std::log(likely);
}

double EntryTimes::of_repeat(Seconds t) const {
    const auto beat = static_cast<std::int64_t>(std::floor(grid_.map().tempi().beat_at(t).count()));
    double likely = repeat_anywhere;
    Seconds nearest{1e9};
    for (std::int64_t half = 2 * beat; half <= 2 * beat + 2; ++half) {
        nearest = std::min(nearest, window(eighth_note * half).distance(t));
    }
    likely += repeat_on_grid * bell(nearest);
    return std::log(likely);
}

}  // namespace compline::assess
