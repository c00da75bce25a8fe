#include "time_keeping.hpp"

#include "median.hpp"

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
        const bool pair = all[i].eighth % 2 == 0 && all[i + 1].eighth == all[i].eighth + 1 &&
                          all[i + 2].eighth == all[i].eighth + 2;
        if (!pair || all[i + 2].at <= all[i + 1].at) continue;
        ratios.push_back((all[i + 1].at - all[i].at) / (all[i + 2].at - all[i + 1].at));
    }
    if (ratios.size() < fewest_swing_pairs) return std::nullopt;
    return median(ratios);
}

/// Bars of silence in a row.
struct Run {
    int first = 0;  ///< bars played, from 0
    int bars = 0;
};

std::vector<Run> silent_runs(const Performance& performance) {
    const std::set<int> silent(performance.silent_bars.begin(), performance.silent_bars.end());
    std::vector<Run> runs;
    for (const int bar : silent) {
        if (!runs.empty() && runs.back().first + runs.back().bars == bar) {
            ++runs.back().bars;
        } else {
            runs.push_back({bar, 1});
        }
    }
    return runs;
}

/// From the first beat of silence to the beat on which the band comes back: nobody can lean on it
/// there yet.
struct EighthsOfRun {
    std::int64_t first;
    std::int64_t back;
};

EighthsOfRun eighths_of(const Run& run, time::Meter meter) {
    const std::int64_t bar = 2 * static_cast<std::int64_t>(meter.beats());
    return {bar * run.first, bar * (run.first + run.bars)};
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
std::optional<double> drift_of(const ByEighth& all, const std::vector<Run>& runs,
                               time::Meter meter) {
    std::size_t strums = 0;
    double spread = 0;
    double slope = 0;
    for (const auto& run : runs) {
        const auto here = eighths_of(run, meter);
        double n = 0, x = 0, y = 0, xx = 0, xy = 0;
        for (const auto* a : all.between(here.first, here.back + 1)) {
            const double bar = static_cast<double>(a->eighth) / (2.0 * meter.beats());
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

SilentBars silence_of(const Run& run, const ByEighth& all, time::Meter meter) {
    const std::int64_t bar = 2 * static_cast<std::int64_t>(meter.beats());
    const auto here = eighths_of(run, meter);
    const auto before = all.between(here.first - bar, here.first);
    const auto after = all.between(here.back, here.back + bar);
    SilentBars silence{run.first, run.bars, 0, {}};
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
        ++kicks.written;
        const Asynchrony* nearest = nearest_to(due, all);
        if (nearest == nullptr || time::abs(nearest->at - due) > grid.beat() * 0.25) continue;
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

std::vector<DueStrum> due_strums(const Grid& grid, const Performance& performance,
                                 const chart::Form& form) {
    std::vector<DueStrum> due;
    const Ticks bar = form.chart.meter.bar();
    const auto& route = performance.route;
    const auto times = static_cast<int>(route.stretches.size());
    for (int time_through = 1; time_through <= times; ++time_through) {
        const Ticks first = route.start(time_through, form.chart.meter);
        for (const auto& span : form.spans_of(route.stretch(time_through).passage)) {
            if (!span.chord) continue;
            const Ticks line = span.start - span.start % bar;
            for (const Ticks in_bar : grid.rhythm().due_in_bar(form.chart.meter)) {
                const Ticks at = line + in_bar;
                const bool here = at >= span.start && at < span.start + span.length;
                if (!here || grid.time_of(first + at) >= performance.end) continue;
                due.push_back({in_bar, (first + at) / eighth_note});
            }
        }
    }
    return due;
}

std::vector<WrittenBeat> per_beat_of(const std::vector<Asynchrony>& all,
                                     const std::set<std::int64_t>& pushed,
                                     const std::vector<DueStrum>& due, const Rhythm& rhythm,
                                     time::Meter meter) {
    std::set<std::int64_t> struck = pushed;
    for (const auto& a : all) struck.insert(a.eighth);
    std::vector<WrittenBeat> beats;
    for (const Ticks in_bar : rhythm.due_in_bar(meter)) {
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

Asynchrony against_grid(std::size_t s, Seconds t, const time::Groove& groove) {
    const auto beat = static_cast<std::int64_t>(std::floor(groove.timeline.beat_at(t).count()));
    Asynchrony best{s, 0, Seconds(1e9), t};
    for (std::int64_t half = 2 * beat; half <= 2 * beat + 2; ++half) {
        const Seconds off = t - groove.time_of(eighth_note * half);
        if (time::abs(off) < time::abs(best.off)) best = {s, half, off, t};
    }
    return best;
}

std::vector<Asynchrony> asynchronies(const std::vector<SoundingStrum>& strums,
                                     const time::Groove& groove, Seconds end) {
    std::vector<Asynchrony> all;
    const Seconds beat = groove.timeline.tempo().beat();
    for (std::size_t s = 0; s < strums.size(); ++s) {
        const Seconds t = strums[s].first();
        const bool counts = strums[s].strum.is_chord() && is_in_time(strums[s].read_as);
        if (!counts || t < -beat || t > end) continue;
        all.push_back(against_grid(s, t, groove));
    }
    return all;
}

void follow_through_silence(std::vector<Asynchrony>& all, const Performance& performance,
                            const Grid& grid) {
    const auto meter = grid.meter();
    for (const auto& run : silent_runs(performance)) {
        const Seconds from = grid.time_of(meter.bar() * run.first) - grid.beat() * 0.25;
        const Seconds until = grid.time_of(meter.bar() * (run.first + run.bars + 1));
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
        if (time::abs(*changes[i].lateness) >= grid.beat() * 0.5) continue;
        const auto landed = std::lower_bound(
            all.begin(), all.end(), landings[i]->strum,
            [](const Asynchrony& a, std::size_t strum) { return a.strum < strum; });
        if (landed == all.end() || landed->at != landings[i]->first) continue;
        landed->eighth = eighth_of(targets.due[i], beats_in);
        landed->off = *changes[i].lateness;
    }
    return pushed;
}

TimeKeeping keep_time(const std::vector<Asynchrony>& all, const std::set<std::int64_t>& pushed,
                      const Grid& grid, const Performance& performance, const chart::Form& form) {
    TimeKeeping time;
    time.all = spread_of(all, [](const Asynchrony&) { return true; });
    time.on_beats = spread_of(all, [](const Asynchrony& a) { return a.eighth % 2 == 0; });
    time.off_beats = spread_of(all, [](const Asynchrony& a) { return a.eighth % 2 != 0; });
    const auto runs = silent_runs(performance);
    const ByEighth by_eighth(all);
    time.drift_ms_per_bar = drift_of(by_eighth, runs, form.chart.meter);
    for (const auto& run : runs) {
        if (grid.time_of(form.chart.meter.bar() * run.first) >= performance.end) break;
        time.silences.push_back(silence_of(run, by_eighth, form.chart.meter));
    }
    time.kicks = kicks_of(all, grid, performance.end);
    time.swing_ratio = swing_ratio_of(all);
    time.per_beat = per_beat_of(all, pushed, due_strums(grid, performance, form), grid.rhythm(),
                                form.chart.meter);
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
