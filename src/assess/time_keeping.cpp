#include "time_keeping.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace compline::assess {

using time::Seconds;
using time::Ticks;

namespace {

constexpr Ticks half_beat{480};
constexpr std::size_t fewest_swing_pairs = 20;
constexpr std::size_t fewest_silent_strums = 8;

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const auto n = values.size();
    return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

Asynchrony against_grid(std::size_t s, Seconds t, const time::Groove& groove) {
    const auto beat = static_cast<std::int64_t>(std::floor(groove.timeline.beat_at(t).count()));
    Asynchrony best{s, 0, Seconds(1e9), t};
    for (std::int64_t half = 2 * beat; half <= 2 * beat + 2; ++half) {
        const Seconds off = t - groove.time_of(half_beat * half);
        if (time::abs(off) < time::abs(best.off)) best = {s, half, off, t};
    }
    return best;
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
        const bool pair = all[i].half_beat % 2 == 0 &&
                          all[i + 1].half_beat == all[i].half_beat + 1 &&
                          all[i + 2].half_beat == all[i].half_beat + 2;
        if (!pair || all[i + 2].at <= all[i + 1].at) continue;
        ratios.push_back((all[i + 1].at - all[i].at) / (all[i + 2].at - all[i + 1].at));
    }
    if (ratios.size() < fewest_swing_pairs) return std::nullopt;
    return median(ratios);
}

/// Slope of a straight line through asynchrony over bars, where the band was silent.
std::optional<double> drift_of(const std::vector<Asynchrony>& all, const Performance& performance,
                               time::Meter meter) {
    const std::set<int> silent(performance.silent_bars.begin(), performance.silent_bars.end());
    double n = 0, x = 0, y = 0, xx = 0, xy = 0;
    for (const auto& a : all) {
        const double bar = static_cast<double>(a.half_beat) / (2.0 * meter.beats());
        if (!silent.contains(static_cast<int>(std::floor(bar)))) continue;
        const double ms = a.off.milliseconds();
        n += 1, x += bar, y += ms, xx += bar * bar, xy += bar * ms;
    }
    const double spread = n * xx - x * x;
    if (n < static_cast<double>(fewest_silent_strums) || spread <= 0) return std::nullopt;
    return (n * xy - x * y) / spread;
}

/// A strum that the rhythm asks for.
struct DueStrum {
    Ticks in_bar;
    std::int64_t half_beat = 0;  ///< from the first beat
};

std::vector<DueStrum> due_strums(const Grid& grid, const Performance& performance,
                                 const chart::Form& form) {
    std::vector<DueStrum> due;
    const Ticks bar = form.chart.meter.bar();
    const auto spans = form.spans_of(performance.passage);
    for (int pass = 0; pass < performance.times_through; ++pass) {
        const Ticks first = bar * performance.passage.bars() * pass;
        for (const auto& span : spans) {
            if (!span.chord) continue;
            const Ticks line = span.start - span.start % bar;
            for (const Ticks in_bar : grid.rhythm().due_in_bar(form.chart.meter)) {
                const Ticks at = line + in_bar;
                const bool here = at >= span.start && at < span.start + span.length;
                if (!here || grid.time_of(first + at) >= performance.end) continue;
                due.push_back({in_bar, (first + at) / half_beat});
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
    for (const auto& a : all) struck.insert(a.half_beat);
    std::vector<WrittenBeat> beats;
    for (const Ticks in_bar : rhythm.due_in_bar(meter)) {
        std::set<std::int64_t> here;
        WrittenBeat beat{in_bar, {}, 0};
        for (const auto& strum : due) {
            if (strum.in_bar != in_bar) continue;
            here.insert(strum.half_beat);
            if (!struck.contains(strum.half_beat)) ++beat.missing;
        }
        beat.strums =
            spread_of(all, [&](const Asynchrony& a) { return here.contains(a.half_beat); });
        beats.push_back(beat);
    }
    return beats;
}

}  // namespace

std::vector<Asynchrony> asynchronies(const std::vector<SoundingStrum>& strums,
                                     const time::Groove& groove, Seconds end) {
    std::vector<Asynchrony> all;
    const Seconds beat = groove.timeline.tempo().beat();
    for (std::size_t s = 0; s < strums.size(); ++s) {
        const Seconds t = strums[s].first();
        if (!strums[s].strum.is_chord() || strums[s].fill || t < -beat || t > end) continue;
        all.push_back(against_grid(s, t, groove));
    }
    return all;
}

std::set<std::int64_t> give_landings_their_beats(
    std::vector<Asynchrony>& all, const std::vector<Change>& changes,
    const std::vector<std::optional<Landing>>& landings, const Grid& grid, const Targets& targets) {
    std::set<std::int64_t> pushed;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        if (!landings[i]) continue;
        const double beats_in = *changes[i].beats_in;
        const auto at = targets.due[i].at / half_beat;
        if (beats_in < 0) {
            pushed.insert(at);
            continue;
        }
        if (time::abs(*changes[i].lateness) >= grid.beat() * 0.5) continue;
        const auto landed = std::lower_bound(
            all.begin(), all.end(), landings[i]->strum,
            [](const Asynchrony& a, std::size_t strum) { return a.strum < strum; });
        if (landed == all.end() || landed->at != landings[i]->first) continue;
        landed->half_beat = at + std::llround(2 * beats_in);
        landed->off = *changes[i].lateness;
    }
    return pushed;
}

TimeKeeping keep_time(const std::vector<Asynchrony>& all, const std::set<std::int64_t>& pushed,
                      const Grid& grid, const Performance& performance, const chart::Form& form) {
    TimeKeeping time;
    time.all = spread_of(all, [](const Asynchrony&) { return true; });
    time.on_beats = spread_of(all, [](const Asynchrony& a) { return a.half_beat % 2 == 0; });
    time.off_beats = spread_of(all, [](const Asynchrony& a) { return a.half_beat % 2 != 0; });
    time.drift_ms_per_bar = drift_of(all, performance, form.chart.meter);
    time.swing_ratio = swing_ratio_of(all);
    time.per_beat = per_beat_of(all, pushed, due_strums(grid, performance, form), grid.rhythm(),
                                form.chart.meter);
    for (const auto& beat : time.per_beat) time.missing_strums += beat.missing;
    return time;
}

std::optional<Seconds> usual_lateness(const std::vector<Asynchrony>& all,
                                      const std::vector<std::optional<Landing>>& landings) {
    std::set<std::size_t> landed;
    for (const auto& landing : landings) {
        if (landing) landed.insert(landing->strum);
    }
    std::vector<double> others;
    for (const auto& a : all) {
        if (!landed.contains(a.strum)) others.push_back(a.off.count());
    }
    if (others.empty()) return std::nullopt;
    return Seconds(median(std::move(others)));
}

}  // namespace compline::assess
