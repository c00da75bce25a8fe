#include "rough_search.hpp"

#include "tempo_search.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

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

/// What is one thing alone (a bar, a key) is likelier than a figure that was searched for;
/// measured: `tools/bench offers`.
constexpr double by_itself = 0.15;

constexpr double least_change = 0.008;  // less is a player's own drift

}  // namespace

RoughSearch::RoughSearch(const RoughFit& fit, const std::vector<RoughStrum>& strums, Seconds beat,
                         Seconds bar)
    : fit_(fit), all_(strums), some_(thinned(strums)), beat_(beat), bar_(bar) {}

double RoughSearch::fit_of(const Moved& moved) const {
    return fit_.of_tones(some_, moved) + fit_.of_time(some_, moved) / 2;
}

double RoughSearch::likely(const Moved& moved) const {
    constexpr double weight = 0.6;  // measured, as by_itself is
    return weight * in_time(moved);
}

double RoughSearch::tones_at(Seconds later) const { return fit_.of_tones(some_, {later, 1, 0}); }

double RoughSearch::in_time(Moved moved) const {
    double best = 0;
    const Seconds later = moved.later;
    for (double ms = -15; ms <= 40; ms += 5) {  // where a player may sit (see assess)
        moved.later = later + time::from_milliseconds(ms);
        best = std::max(best, fit_.of_time(some_, moved));
    }
    return best;
}

/// Who counts himself in or comes in too soon does it by bars.
Seconds RoughSearch::start_in_bars() const {
    constexpr double no_matter = 0.025;
    Seconds best;
    double best_fit = tones_at(best);
    for (const int bars : {1, -1, 2, -2}) {
        const double fit = tones_at(bar_ * bars);
        if (fit > best_fit + no_matter) best_fit = fit, best = bar_ * bars;
    }
    return best;
}

/// Anywhere in two bars and a beat either way, where tones lead there clearly; else in bars.
Seconds RoughSearch::start_by_tones() const {
    constexpr double clearly = 0.05;
    Seconds best = start_in_bars();
    double best_fit = tones_at(best) + clearly;
    const int furthest = static_cast<int>(std::lround((bar_ * 2 + beat_) / beat_ * 4));
    for (int quarters = -furthest; quarters <= furthest; ++quarters) {
        const Seconds later = beat_ * (quarters / 4.0);
        const double fit = tones_at(later);
        if (fit > best_fit) best_fit = fit, best = later;
    }
    return best;
}

/// Where strums lie on beats and off-beats, near such a start: what lies better than all beside it,
/// the best first. Who plays off-beats alone lies well in more than one place.
std::vector<Seconds> RoughSearch::in_time_near(Seconds start) const {
    constexpr int steps = 75;  // hundredths of a beat, either way
    constexpr std::size_t most = 3;
    std::vector<std::pair<double, Seconds>> all;
    for (int step = -steps; step <= steps; ++step) {
        const Seconds later = start + beat_ * (step / 100.0);
        all.emplace_back(fit_.of_time(some_, {later, 1, 0}), later);
    }
    std::vector<std::pair<double, Seconds>> peaks;
    for (std::size_t i = 1; i + 1 < all.size(); ++i) {
        const bool peak = all[i].first > all[i - 1].first && all[i].first >= all[i + 1].first;
        if (peak) peaks.push_back(all[i]);
    }
    std::stable_sort(peaks.begin(), peaks.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<Seconds> best;
    for (const auto& [fit, later] : peaks) {
        if (best.size() < most) best.push_back(later);
    }
    return best;
}

std::vector<Guess> RoughSearch::other_starts() const {
    const Seconds in_bars = start_in_bars();
    const Seconds anywhere = start_by_tones();
    std::vector<Guess> guesses;
    const auto add = [&](Seconds later, double plain) {
        if (time::abs(later) < time::from_milliseconds(40)) return;  // a player's place
        const Moved moved{later, 1, 0};
        guesses.push_back({HintKind::offset, moved, fit_of(moved), likely(moved) + plain});
    };
    add(in_bars, by_itself);
    for (const Seconds in_time : in_time_near(in_bars)) add(in_time, 0);
    if (anywhere == in_bars) return guesses;
    for (const Seconds in_time : in_time_near(anywhere)) add(in_time, 0);
    return guesses;
}

Guess RoughSearch::another_key() const {
    Guess best{HintKind::transpose, {}, -2, likely({}) + by_itself};
    for (const int semitones : {1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6}) {
        const Moved moved{Seconds(0), 1, semitones};
        const double fit = fit_of(moved);
        if (fit > best.fit) best.moved = moved, best.fit = fit;
    }
    return best;
}

Guess RoughSearch::half_or_double() const {
    Guess half{HintKind::tempo, {Seconds(0), 0.5, 0}, 0, likely({}) + by_itself};
    Guess twice{HintKind::tempo, {Seconds(0), 2, 0}, 0, likely({}) + by_itself};
    // The feel of another tempo has its off-beats elsewhere: their time is not looked at.
    constexpr double in_time = 0.4;
    for (auto* guess : {&half, &twice}) guess->fit = fit_.of_tones(some_, guess->moved) + in_time;
    return half.fit >= twice.fit ? half : twice;
}

std::optional<Guess> RoughSearch::slower_or_faster() const {
    const double faster = TempoSearch(fit_, all_, beat_).faster();
    if (std::fabs(faster - 1) < least_change) return std::nullopt;
    const Moved moved{Seconds(0), faster, 0};
    return Guess{HintKind::tempo, moved, fit_of(moved), likely(moved)};
}

}  // namespace compline::practice
