#pragma once

#include <compline/assess/assessment.hpp>

#include <cstdint>
#include <span>

namespace compline::assess {

/// An assessment, and what was played before it: of all those before, taken for one.
struct OneOfAll {
    const Assessment* assessment = nullptr;  ///< never null
    int times_before = 0;                    ///< times through
    std::int64_t bars_before = 0;            ///< bars
    time::Seconds from{0};                   ///< its time zero
};

/// Several assessments of one tune as if all had been played one behind the other: every change as
/// it was judged there, totals, habits and the weakest four of these bars over all of them. What
/// only a whole take tells (own place, drift, swing) is left to each. The tolerance is the widest.
[[nodiscard]] Assessment together(std::span<const OneOfAll> all, chart::Passage bars);

}  // namespace compline::assess
