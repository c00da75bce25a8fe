#pragma once

#include <compline/chart/form.hpp>
#include <compline/guitar/voicing_plan.hpp>

#include <string>

namespace compline::measure {

/// "Three Lamps on Weir Lane, bar 6 beat 1: C7b9 x3232x"
[[nodiscard]] std::string where(const chart::Form& form, const guitar::PlannedVoicing& voicing);

}  // namespace compline::measure
