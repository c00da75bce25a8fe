#pragma once

#include <compline/guitar/voicing_plan.hpp>

#include <string>
#include <vector>

namespace compline::app {

/// What is to be planned.
struct PlanningRequest {
    const chart::Form& form;
    chart::Passage passage;
    time::Bpm tempo;
    const guitar::Fretboard& fretboard;
    const guitar::VoicingWishes& wishes;
    int plans = 1;
};

/// Plans of voicings, for a player who waits: a second and more of it is seen on a terminal. What
/// is refused is said with `place` before it; out of memory, what to ask less of. Throws BadInput,
/// std::runtime_error.
[[nodiscard]] std::vector<guitar::VoicingPlan> plan_for_player(const std::string& place,
                                                               const PlanningRequest& request);

}  // namespace compline::app
