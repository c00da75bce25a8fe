#pragma once

#include <compline/history/tune_history.hpp>
#include <compline/simulate/chance.hpp>

#include <cstdint>

namespace compline::measure {

// Players whose weeks are known, because they are made here by rules of their own: whether the
// history sees that they get better, and only then.

/// How somebody practises one tune of 32 bars with 40 changes. Of each change the chance to be in
/// time is its own, 40 to 80 %. An evening is three takes, each by chance the whole tune three
/// times or a loop of five changes around one of the hardest, twelve times; two evenings are one to
/// four days apart.
struct SimulatedWeeks {
    int evenings = 8;
    double better = 0.1;  ///< the share by which every change is likelier after eight evenings
    double noise = 0.03;  ///< by which whole evenings are better or worse: a standard deviation
};
[[nodiscard]] history::TuneHistory simulated_weeks(const SimulatedWeeks& weeks,
                                                   simulate::Chance& chance);

/// Of so many players, of how many the history says that they got better, or worse.
struct TrendsFound {
    int players = 0;
    int better = 0;
    int worse = 0;
    int plainly_better = 0;  ///< had the evenings been taken as they were, not like for like
    int plainly_worse = 0;
};
[[nodiscard]] TrendsFound trends_found(const SimulatedWeeks& weeks, int players,
                                       std::uint64_t seed);

/// So many evenings over so many tunes, as they lie in a history: one tune an evening.
[[nodiscard]] std::vector<history::TuneHistory> years_of_practice(int evenings, int tunes,
                                                                  std::uint64_t seed);

}  // namespace compline::measure
