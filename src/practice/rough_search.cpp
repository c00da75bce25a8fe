#include "rough_search.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace compline::practice {

using time::Seconds;

namespace {

/// More strums than these tell nothing new at a glance.
constexpr std::size_t enough_strums = 300;

std::vector<RoughStrum> thinned(const std::vector<RoughStrum>& strums) {
    const std::size_t step = strums.size() / enough_strums + 1;
    std::vector<RoughStrum> some;
    for (std::size_t i = 0; i < strums.size(); i += step) some.push_back(strums[i]);
    return some;
}

constexpr double slowest = 0.915;
constexpr double fastest = 1.085;
constexpr double least_change = 0.008;  // less is a player's own drift

struct Tempo {
    double faster = 1;
    double fit = 0;
};

/// The best few that are not neighbours.
std::vector<Tempo> best_of(std::vector<Tempo> tempi, double apart) {
    constexpr std::size_t most = 5;
    std::stable_sort(tempi.begin(), tempi.end(),
                     [](const Tempo& a, const Tempo& b) { return a.fit > b.fit; });
    std::vector<Tempo> best;
    for (const auto& tempo : tempi) {
        const bool near = std::any_of(best.begin(), best.end(), [&](const Tempo& other) {
            return std::fabs(other.faster - tempo.faster) < apart;
        });
        if (!near) best.push_back(tempo);
        if (best.size() == most) break;
    }
    return best;
}

}  // namespace

RoughSearch::RoughSearch(const RoughFit& fit, const std::vector<RoughStrum>& strums, Seconds beat,
                         Seconds bar)
    : fit_(fit), all_(strums), some_(thinned(strums)), beat_(beat), bar_(bar) {}

double RoughSearch::fit_of(const Moved& moved) const {
    return fit_.of_tones(some_, moved) + fit_.of_time(some_, moved) / 2;
}

double RoughSearch::tones_at(Seconds later) const { return fit_.of_tones(some_, {later, 1, 0}); }

double RoughSearch::in_time() const {
    double best = 0;
    for (double ms = -15; ms <= 40; ms += 5) {  // where a player may sit (see assess)
        best = std::max(best, fit_.of_time(some_, {time::from_milliseconds(ms), 1, 0}));
    }
    return best;
}

/// Whole bars first: who counts himself in or comes in too soon does it by bars.
Seconds RoughSearch::start_by_tones() const {
    constexpr double no_matter = 0.05;
    Seconds best;
    double best_fit = tones_at(best);
    for (const int bars : {1, -1, 2, -2}) {
        const double fit = tones_at(bar_ * bars);
        if (fit > best_fit + no_matter / 2) best_fit = fit, best = bar_ * bars;
    }
    const double whole_bars = best_fit;
    const int furthest = static_cast<int>(std::lround((bar_ * 2 + beat_) / beat_ * 4));
    for (int quarters = -furthest; quarters <= furthest; ++quarters) {
        const Seconds later = beat_ * (quarters / 4.0);
        const double fit = tones_at(later);
        const bool better = fit > whole_bars + no_matter && fit > best_fit;
        if (better) best_fit = fit, best = later;
    }
    return best;
}

/// Where the strums lie best on beats and off-beats, as near as may be.
Seconds RoughSearch::in_time_near(Seconds later) const {
    constexpr int steps = 75;  // hundredths of a beat, either way
    constexpr double nearer_is_better = 0.1;
    const double here = fit_.of_time(some_, {later, 1, 0});
    Seconds best = later;
    double best_fit = here;
    double best_time = here;
    for (int step = -steps; step <= steps; ++step) {
        const Moved moved{later + beat_ * (step / 100.0), 1, 0};
        const double in_time = fit_.of_time(some_, moved);
        const double fit = in_time + (fit_.of_tones(some_, moved) - tones_at(later)) / 2 -
                           nearer_is_better * std::abs(step) / 100.0;
        if (fit > best_fit) best_fit = fit, best_time = in_time, best = moved.later;
    }
    return here >= 0.7 * best_time ? later : best;
}

std::optional<Guess> RoughSearch::another_start() const {
    const Seconds later = in_time_near(start_by_tones());
    if (time::abs(later) < time::from_milliseconds(40)) return std::nullopt;  // a player's place
    const Moved moved{later, 1, 0};
    return Guess{HintKind::offset, moved, fit_of(moved)};
}

Guess RoughSearch::another_key() const {
    Guess best{HintKind::transpose, {}, -2};
    for (const int semitones : {1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6}) {
        const Moved moved{Seconds(0), 1, semitones};
        const double fit = fit_of(moved);
        if (fit > best.fit) best.moved = moved, best.fit = fit;
    }
    return best;
}

Guess RoughSearch::half_or_double() const {
    Guess half{HintKind::tempo, {Seconds(0), 0.5, 0}, 0};
    half.fit = fit_of(half.moved);
    Guess twice{HintKind::tempo, {Seconds(0), 2, 0}, 0};
    twice.fit = fit_of(twice.moved);
    return half.fit >= twice.fit ? half : twice;
}

/// By the beginning first, and then by more and more of the take, the step being finer each time:
/// so that at its end nobody is further off than a part of a beat.
std::optional<Guess> RoughSearch::slower_or_faster() const {
    constexpr double error = 0.05;  // beats, at the end of what is looked at
    std::vector<Tempo> tempi;
    std::size_t strums = std::min<std::size_t>(all_.size(), 32);
    if (strums == 0) return std::nullopt;
    const auto fit_by = [&](double faster) {
        const std::span<const RoughStrum> first(all_.data(), strums);
        const Moved moved{Seconds(0), faster, 0};
        return Tempo{faster, fit_.of_tones(first, moved) + fit_.of_time(first, moved) / 2};
    };
    const auto step_now = [&] { return error / std::max(8.0, all_[strums - 1].at / beat_); };
    double step = step_now();
    for (double faster = slowest; faster <= fastest; faster += step) {
        tempi.push_back(fit_by(faster));
    }
    tempi = best_of(std::move(tempi), 2 * step);
    while (strums < all_.size()) {
        const double before = step;
        strums = std::min(all_.size(), strums * 2);
        step = std::min(before, step_now());
        std::vector<Tempo> finer;
        for (const auto& tempo : tempi) {
            for (double off = -before; off <= before; off += step) {
                finer.push_back(fit_by(tempo.faster + off));
            }
        }
        tempi = best_of(std::move(finer), 2 * step);
    }
    const auto& best = tempi.front();
    if (std::fabs(best.faster - 1) < least_change) return std::nullopt;
    const Moved moved{Seconds(0), best.faster, 0};
    return Guess{HintKind::tempo, moved, fit_of(moved)};
}

}  // namespace compline::practice
