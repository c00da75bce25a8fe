#pragma once

#include <compline/report/now_playing.hpp>

namespace compline::report {

/// A grip and the bar in which it begins to be played.
struct DueGrip {
    const guitar::PlannedVoicing* voicing = nullptr;  ///< null: none
    int bar = 1;
};

struct DueGrips {
    DueGrip now;
    DueGrip next;
};

/// What is to be held at a position and what comes next, in this time through or in one to come:
/// half a beat ahead of the chord, as the hand moves. The voicings must be there (asserted).
[[nodiscard]] DueGrips due_grips(const ChartRows& rows, const Playing& playing,
                                 time::Ticks position);

}  // namespace compline::report
