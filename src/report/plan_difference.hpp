#pragma once

#include <compline/guitar/voicing_plan.hpp>

#include <string>
#include <vector>

namespace compline::report {

/// Where a plan has another voicing than the best one; the same difference in several places is
/// said once.
struct PlanDifference {
    std::vector<std::string> places;  ///< "bar 3", "bar 19 beat 3"
    std::string symbol;
    std::string before;  ///< the best plan's shape; with its fingers where the shape is the same
    std::string after;
};

[[nodiscard]] std::vector<PlanDifference> differences_of(const guitar::VoicingPlan& best,
                                                         const guitar::VoicingPlan& other);

}  // namespace compline::report
