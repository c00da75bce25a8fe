#include "time_keeping.hpp"

#include "median.hpp"
#include "waits.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace compline::assess {

using time::eighth_note;
using time::Seconds;
using time::Ticks;

namespace {

constexpr std::size_t fewest_swing_pairs = 20;
constexpr std::size_t fewest_silent_strums = 8;

/// Meant for a beat or an off-beat of its own.
bool is_in_time(ReadAs read_as) {
    return read_as != ReadAs::fill && read_as != ReadAs::approach && read_as != ReadAs::up_stroke;
}

template <typename Keep>
Spread spread_of(const std::vector<Asynchrony>& all, Keep keep) {
    Spread spread;
    double sum = 0;
    for (const auto& a : all) {
        if (!keep(a)) continue;
        ++spread.count;
        sum += a.off.milliseconds();
    }
    if (spread.count == 0) return spread;
    const double mean = sum / spread.count;
    double squares = 0;
    for (const auto& a : all) {
        if (keep(a)) squares += std::pow(a.off.milliseconds() - mean, 2);
    }
    spread.mean_ms = mean;
    if (spread.count > 1) spread.sd_ms = std::sqrt(squares / (spread.count - 1));
    return spread;
}

/// Long part over short part, over beats with a strum on both ends and one on the off-beat.
std::optional<double> swing_ratio_of(const std::vector<Asynchrony>& all) {
    std::vector<double> ratios;
    for (std::size_t i = 0; i + 2 < all.size(); ++i) {
        const bool pair = !all[i].off_beat && all[i + 1].off_beat && !all[i + 2].off_beat &&
                          all[i + 1].eighth == all[i].eighth + 1 &&
                          all[i + 2].eighth == all[i].eighth + 2;
        if (!pair || all[i + 2].at <= all[i + 1].at) continue;
        ratios.push_back((all[i + 1].at - all[i].at) / (all[i + 2].at - all[i + 1].at));
    }
    if (ratios.size() < fewest_swing_pairs) return std::nullopt;
    return median(ratios);
}

/// Where a bar begins, also one that would follow the last or stand before the first.
Ticks line_of(const roadmap::RoadMap& map, std::int64_t number) {
    const auto nearest = std::clamp<std::int64_t>(number, 1, *map.bars());
    const auto bar = map.bar(nearest);
    return bar.start + bar.meter().bar() * (number - nearest);
}

/// From the first beat of silence to the beat on which the band comes back: nobody can lean on it
/// there yet.
struct EighthsOfRun {
    std::int64_t first;
    std::int64_t back;
};

EighthsOfRun eighths_of(const SilentRun& run) {
    return {run.from / eighth_note, run.back / eighth_note};
}

/// Strums by the eighths they were meant for: a silence looks at its own only.
class ByEighth {
  public:
    explicit ByEighth(const std::vector<Asynchrony>& all) {
        for (const auto& a : all) strums_.push_back(&a);
        std::stable_sort(strums_.begin(), strums_.end(),
                         [](const auto* a, const auto* b) { return a->eighth < b->eighth; });
    }
    /// Those meant for `first` and on to before `end`, in the order in which they were struck.
    [[nodiscard]] std::vector<const Asynchrony*> between(std::int64_t first,
                                                         std::int64_t end) const {
        const auto from = [&](std::int64_t at) {
            return std::partition_point(strums_.begin(), strums_.end(),
                                        [&](const auto* a) { return a->eighth < at; });
        };
        std::vector<const Asynchrony*> found(from(first), from(end));
        std::sort(found.begin(), found.end());  // all are in one vector
        return found;
    }

  private:
    std::vector<const Asynchrony*> strums_;
};

/// Slope of straight lines through asynchrony over bars, one slope for all silences: between them
/// the band has put the player right, so that each line begins where it will.
std::optional<double> drift_of(const ByEighth& all, const std::vector<SilentRun>& runs) {
    std::size_t strums = 0;
    double spread = 0;
    double slope = 0;
    for (const auto& run : runs) {
        const auto here = eighths_of(run);
        const double eighths_of_bar = time::Beats(run.meter.bar()).count() * 2;
        double n = 0, x = 0, y = 0, xx = 0, xy = 0;
        for (const auto* a : all.between(here.first, here.back + 1)) {
            const double bar = static_cast<double>(a->eighth) / eighths_of_bar;
            const double ms = a->off.milliseconds();
            n += 1, x += bar, y += ms, xx += bar * bar, xy += bar * ms;
        }
        if (n < 2) continue;
        strums += static_cast<std::size_t>(n);
        spread += xx - x * x / n;
        slope += xy - x * y / n;
    }
    if (strums < fewest_silent_strums || spread <= 1e-9) return std::nullopt;
    return slope / spread;
}

SilentBars silence_of(const SilentRun& run, const ByEighth& all) {
    const auto here = eighths_of(run);
    const auto before = all.between(run.bar_before / eighth_note, here.first);
    const auto after = all.between(here.back, run.bar_after / eighth_note);
    SilentBars silence{run.first_bar, run.bars, 0, {}};
    silence.strums = static_cast<int>(all.between(here.first, here.back + 1).size());
    if (!before.empty() && !after.empty()) {
        silence.came_back_ms = (after.front()->off - before.back()->off).milliseconds();
    }
    return silence;
}

/// The strum nearest to a moment, the first of several; `all` are in order of time.
const Asynchrony* nearest_to(Seconds due, const std::vector<Asynchrony>& all) {
    const auto first_from = [&](Seconds at) {
        return std::partition_point(all.begin(), all.end(),
                                    [&](const Asynchrony& a) { return a.at < at; });
    };
    const auto after = first_from(due);
    const Asynchrony* nearest = after != all.end() ? &*after : nullptr;
    if (after == all.begin()) return nearest;
    const Asynchrony& before = *first_from(std::prev(after)->at);
    const bool nearer = nearest == nullptr || due - before.at <= nearest->at - due;
    return nearer ? &before : nearest;
}

Kicks kicks_of(const std::vector<Asynchrony>& all, const Grid& grid, Seconds end) {
    Kicks kicks;
    std::vector<Asynchrony> caught;
    for (const Ticks at : grid.kicks()) {
        const Seconds due = grid.time_of(at);
        if (due >= end) break;
        if (!grid.judges(grid.map().bar_at(at).in_form())) continue;
        ++kicks.written;
        const Asynchrony* nearest = nearest_to(due, all);
        if (nearest == nullptr || time::abs(nearest->at - due) > grid.pace_at(at).beat * 0.25)
            continue;
        caught.push_back(*nearest);
        caught.back().off = nearest->at - due;
    }
    kicks.caught = spread_of(caught, [](const Asynchrony&) { return true; });
    return kicks;
}

/// A strum that the rhythm asks for.
struct DueStrum {
    Ticks in_bar;
    std::int64_t eighth = 0;  ///< from the first beat
};

std::vector<DueStrum> due_strums(const Grid& grid, Seconds end) {
    std::vector<DueStrum> due;
    for (std::int64_t number = 1; number <= *grid.map().bars(); ++number) {
        const auto bar = grid.map().bar(number);
        if (bar.in_form() == 0 || !grid.judges(bar.in_form())) continue;
        const auto in_bars = grid.rhythm_in(bar.in_form()).due_in_bar(bar.meter());
        for (const auto& slot : bar.slots()) {
            if (!slot.chord) continue;
            for (const Ticks in_bar : in_bars) {
                const Ticks at = bar.start + in_bar;
                const bool here = in_bar >= slot.start && in_bar < slot.start + slot.length;
                if (here && grid.time_of(at) < end) due.push_back({in_bar, at / eighth_note});
            }
        }
    }
    return due;
}

/// Wherever a bar of the form has a strum due.
std::set<Ticks> written_beats(const Grid& grid) {
    std::set<Ticks> written;
    for (const auto& bar : grid.map().form().bars) {
        for (const Ticks in_bar : grid.rhythm_in(bar.number).due_in_bar(bar.meter))
            written.insert(in_bar);
    }
    return written;
}

std::vector<WrittenBeat> per_beat_of(const std::vector<Asynchrony>& all,
                                     const std::set<std::int64_t>& pushed,
                                     const std::vector<DueStrum>& due, const Grid& grid) {
    std::set<std::int64_t> struck = pushed;
    for (const auto& a : all) struck.insert(a.eighth);
    std::vector<WrittenBeat> beats;
    for (const Ticks in_bar : written_beats(grid)) {
        std::set<std::int64_t> here;
        WrittenBeat beat{in_bar, {}, 0};
        for (const auto& strum : due) {
            if (strum.in_bar != in_bar) continue;
            here.insert(strum.eighth);
            if (!struck.contains(strum.eighth)) ++beat.missing;
        }
        beat.strums = spread_of(all, [&](const Asynchrony& a) { return here.contains(a.eighth); });
        beats.push_back(beat);
    }
    return beats;
}

}  // namespace

std::int64_t eighth_of(const Target& target, double beats_in) {
    return target.at / eighth_note + std::llround(2 * beats_in);
}

Asynchrony against_grid(std::size_t s, Seconds t, const roadmap::RoadMap& map) {
    const auto beat = static_cast<std::int64_t>(std::floor(map.tempi().beat_at(t).count()));
    Asynchrony best{s, 0, Seconds(1e9), t};
    for (std::int64_t half = 2 * beat; half <= 2 * beat + 2; ++half) {
        const Seconds off = t - map.time_of(eighth_note * half);
        if (time::abs(off) < time::abs(best.off)) best = {s, half, off, t};
    }
    best.off_beat = is_off_beat(map, eighth_note * best.eighth);
    return best;
}

std::vector<Asynchrony> asynchronies(const std::vector<SoundingStrum>& strums,
                                     const roadmap::RoadMap& map, Seconds end) {
    std::vector<Asynchrony> all;
    const Seconds beat = map.tempo().beat();
    const bool waits = has_waits(map);
    for (std::size_t s = 0; s < strums.size(); ++s) {
        const Seconds t = strums[s].first();
        const bool counts = strums[s].keeps_time() && is_in_time(strums[s].read_as);
        if (!counts || t < -beat || t > end) continue;
        const auto place = against_grid(s, t, map);
        if (waits && is_in_wait(eighth_note * place.eighth, map)) continue;
        all.push_back(place);
    }
    return all;
}

std::vector<SilentRun> silent_runs(const roadmap::RoadMap& map) {
    std::vector<SilentRun> runs;
    for (std::int64_t number = 1; number <= *map.bars(); ++number) {
        const auto bar = map.bar(number);
        if (!bar.is_silent()) continue;
        const bool goes_on = !runs.empty() && runs.back().back == bar.start;
        if (!goes_on) {
            runs.push_back({number, 0, bar.meter(), line_of(map, number - 1), bar.start, {}, {}});
        }
        ++runs.back().bars;
        runs.back().back = bar.end();
        runs.back().bar_after = line_of(map, number + 2);
    }
    return runs;
}

void follow_through_silence(std::vector<Asynchrony>& all, const std::vector<SilentRun>& silences,
                            const Grid& grid) {
    for (const auto& run : silences) {
        const Seconds from = grid.time_of(run.from) - grid.pace_at(run.from).beat * 0.25;
        const Seconds until = grid.time_of(run.bar_after);
        const auto first = std::partition_point(all.begin(), all.end(),
                                                [&](const Asynchrony& a) { return a.at < from; });
        const auto begin = std::max<std::ptrdiff_t>(first - all.begin(), 1);
        for (auto i = static_cast<std::size_t>(begin); i < all.size(); ++i) {
            auto& a = all[i];
            if (a.at > until) break;
            const Seconds before = all[i - 1].off;
            const auto near = a.eighth;
            for (std::int64_t half = near - 3; half <= near + 3; ++half) {
                const Seconds off = a.at - grid.time_of(eighth_note * half);
                if (time::abs(off - before) >= time::abs(a.off - before)) continue;
                a.eighth = half;
                a.off = off;
            }
        }
    }
}

std::set<std::int64_t> give_landings_their_beats(
    std::vector<Asynchrony>& all, const std::vector<Change>& changes,
    const std::vector<std::optional<Landing>>& landings, const Grid& grid, const Targets& targets) {
    std::set<std::int64_t> pushed;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (!changes[i].lateness) continue;
        const double beats_in = *changes[i].beats_in;
        const auto at = targets.due[i].at / eighth_note;
        if (beats_in < 0) {
            pushed.insert(at);
            continue;
        }
        if (time::abs(*changes[i].lateness) >= grid.pace_at(targets.due[i].at).beat * 0.5) continue;
        const auto landed = std::lower_bound(
            all.begin(), all.end(), landings[i]->strum,
            [](const Asynchrony& a, std::size_t strum) { return a.strum < strum; });
        if (landed == all.end() || landed->at != landings[i]->first) continue;
        landed->eighth = eighth_of(targets.due[i], beats_in);
        landed->off_beat = grid.is_off_beat(eighth_note * landed->eighth);
        landed->off = *changes[i].lateness;
    }
    return pushed;
}

TimeKeeping keep_time(const std::vector<Asynchrony>& all, const std::set<std::int64_t>& pushed,
                      const std::vector<SilentRun>& silences, const Grid& grid, Seconds end) {
    TimeKeeping time;
    time.all = spread_of(all, [](const Asynchrony&) { return true; });
    time.on_beats = spread_of(all, [](const Asynchrony& a) { return !a.off_beat; });
    time.off_beats = spread_of(all, [](const Asynchrony& a) { return a.off_beat; });
    const ByEighth by_eighth(all);
    time.drift_ms_per_bar = drift_of(by_eighth, silences);
    for (const auto& run : silences) {
        if (grid.time_of(run.from) >= end) break;
        if (!grid.judges(grid.map().bar(run.first_bar).in_form())) continue;
        time.silences.push_back(silence_of(run, by_eighth));
    }
    time.kicks = kicks_of(all, grid, end);
    time.swing_ratio = swing_ratio_of(all);
    time.per_beat = per_beat_of(all, pushed, due_strums(grid, end), grid);
    for (const auto& beat : time.per_beat) time.missing_strums += beat.missing;
    return time;
}

std::optional<Seconds> usual_lateness(const std::vector<Asynchrony>& all,
                                      const std::vector<SoundingStrum>& strums) {
    std::vector<double> others;
    for (const auto& a : all) {
        if (strums[a.strum].read_as != ReadAs::landing) others.push_back(a.off.count());
    }
    if (others.empty()) return std::nullopt;
    return Seconds(median(std::move(others)));
}

}  // namespace compline::assess
