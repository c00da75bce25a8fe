#pragma once

#include "sheet.hpp"

namespace compline::report {

/// What stands in each bar of a plan's passage.
[[nodiscard]] std::vector<SheetBar> sheet_bars(const chart::Form& form,
                                               const guitar::VoicingPlan& plan);

}  // namespace compline::report
