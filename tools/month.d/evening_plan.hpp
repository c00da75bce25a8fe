#pragma once

#include "calendar.hpp"
#include "pupils.hpp"
#include "take.hpp"

#include <vector>

namespace compline::month {

/// One take of an evening, before it is played.
struct PlannedTake {
    std::size_t work = 0;  ///< of the pupil's; of a drill the one it is like
    AskedTake asked;
    bool hardly_plays = false;
};

/// Two to five takes: something out of a tune, or typed changes, and the whole tune at the end; now
/// and then a second tune. `tunes`: the pupil's, as his works; `drill`: what is typed.
[[nodiscard]] std::vector<PlannedTake> plan_evening(const Pupil& pupil,
                                                    const std::vector<Tune>& tunes,
                                                    const Tune& drill, const EveningDate& date,
                                                    int weeks, simulate::Chance& chance);

/// The weeks without it, in the middle: three, or what lies between the first and the last.
[[nodiscard]] bool is_left_alone(const Work& work, int week, int weeks);

}  // namespace compline::month
