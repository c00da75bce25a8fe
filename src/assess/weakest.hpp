#pragma once

#include <compline/assess/assessment.hpp>

#include <optional>
#include <vector>

namespace compline::assess {

/// The four-bar window of the passage with the highest cost over all times through, and at least
/// two faults; of equal ones the earliest; never round the end of the form. The seam of a loop does
/// not count: the tune may not have that change.
[[nodiscard]] std::optional<Weakest> find_weakest(const std::vector<Change>& changes,
                                                  chart::Passage passage);

}  // namespace compline::assess
