#include "own_time.hpp"

#include "median.hpp"

#include <algorithm>
#include <cmath>

namespace compline::assess {

using time::eighth_note;
using time::Seconds;
using time::Ticks;

namespace {

/// So many strums that change nothing tell where a player stands; of fewer than six nothing is
/// said.
constexpr std::size_t enough_strums = 12;
constexpr std::size_t fewest_own_strums = 6;
/// So many tell where his off-beats are.
constexpr std::size_t enough_off_beats = 6;
/// A place is one when it is kept.
constexpr double widest_place_sd = 0.025;
constexpr double most_wandering = 0.010;
/// Of few strums chance parts the halves' medians by so many standard errors at most; a median's is
/// that of a mean times sqrt(pi / 2).
constexpr double most_errors = 3;
constexpr double median_error = 1.2533;
// What is a place, and not a fault.
constexpr double furthest_ahead = -0.015;
constexpr double furthest_behind = 0.040;
constexpr double furthest_behind_uncertain = 0.025;
/// A tolerance is so many of the player's own standard deviations.
constexpr double deviations = 2.5;
/// What is further off than this is another thing than scatter: a slow hand.
constexpr double furthest_scatter = 0.060;

/// What was known before counts as so many changes.
constexpr double prior_changes = 6;
/// A change further from every grid point comes in nowhere in particular.
constexpr Seconds entry_reach{0.060};

/// Who rests for a whole time through leaves nothing out where he plays.
constexpr double most_left_out = 0.2;

constexpr std::size_t fewest_for_a_habit = 3;
constexpr double share_of_a_habit = 0.2;

bool changes_nothing(const Reading& reading, const Asynchrony& a) {
    return reading.strums[a.strum].read_as == ReadAs::again;
}

/// Offsets, in seconds, of the strums to keep.
template <typename Keep>
std::vector<double> offsets(const std::vector<Asynchrony>& all, Keep keep) {
    std::vector<double> found;
    for (const auto& a : all) {
        if (keep(a)) found.push_back(a.off.count());
    }
    return found;
}

double sd_of(const std::vector<double>& values) {
    const double middle = median(values);
    double n = 0, sum = 0, squares = 0;
    for (const double value : values) {
        if (std::fabs(value - middle) > furthest_scatter) continue;
        n += 1, sum += value, squares += value * value;
    }
    return n < 2 ? 0 : std::sqrt(std::max(0.0, (squares - sum * sum / n) / (n - 1)));
}

/// The median, where it is kept throughout the take; of few strums chance has its part in both.
std::optional<double> kept_place(const std::vector<double>& offsets) {
    const double sd = sd_of(offsets);
    const auto n = static_cast<double>(offsets.size());
    if (sd > widest_place_sd * (1 + 1 / std::sqrt(n))) return std::nullopt;
    const auto half = offsets.begin() + static_cast<std::ptrdiff_t>(offsets.size() / 2);
    if (half != offsets.begin()) {
        const double before = median({offsets.begin(), half});
        const double after = median({half, offsets.end()});
        const double by_chance = most_errors * median_error * sd * 2 / std::sqrt(n);
        if (std::fabs(before - after) > std::max(most_wandering, by_chance)) return std::nullopt;
    }
    return median(offsets);
}

/// The player's off-beats where no hand was late: not those that land a change after its beat.
std::optional<Seconds> own_off_beat(const Reading& reading, const Targets& targets,
                                    const Grid& grid, const std::vector<Asynchrony>& all) {
    const auto late_landing = [&](std::size_t strum) {
        const auto target = reading.in_hand[strum];
        return reading.strums[strum].read_as == ReadAs::landing && target &&
               reading.strums[strum].first() > grid.time_of(targets.due[*target].at);
    };
    const auto found =
        offsets(all, [&](const Asynchrony& a) { return a.off_beat && !late_landing(a.strum); });
    if (found.size() < enough_off_beats) return std::nullopt;
    return Seconds(median(found));
}

/// Which grid point a landing is nearest to, in eighths after the change.
std::optional<int> entry_of(const Landing& landing, const Target& target, const Grid& grid,
                            const Player& player) {
    std::optional<int> nearest;
    Seconds least = entry_reach;
    for (int entry = first_entry; entry <= last_entry; ++entry) {
        const Ticks in = eighth_note * entry;
        if (in >= target.length) break;
        Seconds off = time::abs(landing.first - grid.time_of(target.at + in));
        if (entry % 2 != 0 && player.off_beat) {
            off = std::min(
                off, time::abs(landing.first - grid.time_of(target.at + in) - *player.off_beat));
        }
        if (off > least) continue;
        least = off;
        nearest = entry;
    }
    return nearest;
}

struct Entries {
    std::array<int, entry_count> counts{};
    int struck = 0;
    int due = 0;  ///< by the last strum

    [[nodiscard]] int at(int eighths) const {
        return counts[static_cast<std::size_t>(eighths - first_entry)];
    }
};

Entries count_entries(const Reading& reading, const Targets& targets, const Grid& grid,
                      const Player& player) {
    Entries entries;
    if (reading.strums.empty()) return entries;
    const Seconds end = reading.strums.back().first();
    for (std::size_t i = 0; i < targets.size(); ++i) {
        // What may be left out says nothing of the player when it is.
        if (targets.due[i].optional && !reading.landings[i]) continue;
        if (grid.time_of(targets.due[i].at) <= end) ++entries.due;
        if (!reading.landings[i] || reading.meant[i]) continue;
        ++entries.struck;
        const auto entry = entry_of(*reading.landings[i], targets.due[i], grid, player);
        if (entry) ++entries.counts[static_cast<std::size_t>(*entry - first_entry)];
    }
    return entries;
}

std::vector<double> repeats(const Reading& reading, const std::vector<Asynchrony>& all,
                            bool off_beats) {
    return offsets(all, [&](const Asynchrony& a) {
        return a.off_beat == off_beats && changes_nothing(reading, a);
    });
}

/// From strums that change nothing.
std::optional<Seconds> certain_place(const std::vector<double>& repeats) {
    const auto kept = kept_place(repeats);
    if (!kept) return std::nullopt;
    return Seconds(std::clamp(*kept, furthest_ahead, furthest_behind));
}

/// From all strums; further off than anybody stands is a slow hand, or meant for elsewhere.
std::optional<Seconds> uncertain_place(const std::vector<Asynchrony>& all, bool off_beats) {
    const auto every = offsets(all, [&](const Asynchrony& a) { return a.off_beat == off_beats; });
    const auto kept = every.size() < fewest_own_strums ? std::nullopt : kept_place(every);
    if (!kept || *kept < furthest_ahead || *kept > furthest_behind) return std::nullopt;
    return Seconds(std::min(*kept, furthest_behind_uncertain));
}

OwnPlace own_place(const Reading& reading, const std::vector<Asynchrony>& all) {
    OwnPlace place;
    const auto on_beats = repeats(reading, all, false);
    place.told_apart = on_beats.size() >= enough_strums;
    place.on_beats = place.told_apart ? certain_place(on_beats) : uncertain_place(all, false);
    if (place.told_apart && !place.on_beats) place.uneven = Seconds(median(on_beats));
    const auto off_beats = repeats(reading, all, true);
    if (off_beats.size() >= enough_strums) place.off_beats = certain_place(off_beats);
    if (!place.off_beats) place.off_beats = place.on_beats;
    // Who plays off-beats alone stands somewhere too.
    if (!place.off_beats && !place.uneven) place.off_beats = uncertain_place(all, true);
    return place;
}

/// What the player's own scatter asks for; of few strums nothing is known.
Seconds scatter_of(const std::vector<double>& repeats) {
    if (repeats.size() < enough_strums) return Seconds(0);
    return Seconds(sd_of(repeats) * deviations);
}

}  // namespace

Player learn(const Reading& reading, const Targets& targets, const Grid& grid,
             const std::vector<Asynchrony>& all) {
    Player player;
    player.off_beat = own_off_beat(reading, targets, grid, all);
    player.place = own_place(reading, all).on_beats.value_or(Seconds(0));
    const auto entries = count_entries(reading, targets, grid, player);
    for (std::size_t n = 0; n < entry_count; ++n) {
        player.entries[n] = (player.entries[n] * prior_changes + entries.counts[n]) /
                            (prior_changes + entries.struck);
    }
    const double left_out =
        player.leaves_out * prior_changes + std::max(0, entries.due - entries.struck);
    player.leaves_out = std::min(left_out / (prior_changes + entries.due), most_left_out);
    return player;
}

JudgedBy own_time(const Reading& reading, const Targets& targets, const Grid& grid,
                  const std::vector<Asynchrony>& all, const Settings& settings) {
    JudgedBy by;
    by.place = own_place(reading, all);
    const bool own = settings.against == Against::own;
    const auto where = [&](std::optional<Seconds> place, bool off_beats) {
        return OwnTime::Where{own ? place.value_or(Seconds(0)) : Seconds(0),
                              scatter_of(repeats(reading, all, off_beats))};
    };
    by.own.on_beats = where(by.place.on_beats, false);
    by.own.off_beats = where(by.place.off_beats, true);
    Player player;
    player.off_beat = own_off_beat(reading, targets, grid, all);
    by.own.off_beat = player.off_beat;
    const auto repeated = repeats(reading, all, true);
    if (repeated.size() >= enough_off_beats) by.own.off_beat_of_repeats = Seconds(median(repeated));
    const auto entries = count_entries(reading, targets, grid, player);
    // Done once, the beat before belongs to the old chord (2026-11-29).
    by.own.pushes_by_a_beat = entries.at(-2) > 1;
    for (int beat = 1; 2 * beat <= last_entry; ++beat) {
        const auto count = static_cast<std::size_t>(entries.at(2 * beat));
        if (count >= fewest_for_a_habit &&
            static_cast<double>(count) >= share_of_a_habit * entries.struck) {
            by.own.habits.push_back(beat);
        }
    }
    return by;
}

}  // namespace compline::assess
