#pragma once

// Evenings of a tune as the history has them, made by hand: what pictures of weeks are drawn from.

#include "history/weeks.hpp"
#include "report/some_weeks.hpp"

#include <string>
#include <vector>

namespace compline::tests {

/// Of four changes a place, so many were right on each evening, bar 7 aside: of it one was.
inline history::TuneHistory evenings_of(const std::vector<int>& right, int days_apart = 2) {
    Weeks weeks;
    int day = 0;
    for (const int of_four : right) {
        weeks.on(day, {{1, 4, of_four, "", "F6"}, {3, 4, of_four}, {7, 4, 1, "Am7b5", "D7"}});
        day += days_apart;
    }
    weeks.it.tune = lantern_street();
    weeks.it.bars = 8;
    return weeks.it;
}

/// Twelve evenings from 2 to 24 November, better from week to week and a little faster.
inline history::TuneHistory twelve_evenings() {
    auto tune = evenings_of({1, 1, 2, 1, 2, 2, 3, 2, 3, 3, 4, 4});
    double bpm = 108;
    for (auto& evening : tune.evenings) evening.usual_bpm = bpm++;
    tune.tempi = {{108, sums(40, 20, 36, 18), 5, 0, "2026-11-10"},
                  {112, sums(40, 24, 36, 20), 5, 1, "2026-11-18"},
                  {119, sums(64, 58, 60, 57), 3, 2, "2026-11-24", sums(64, 58, 60, 57)}};
    return tune;
}

}  // namespace compline::tests
