#pragma once

#include "sheet.hpp"

namespace compline::report {

/// What stands in each bar of a plan's passage that is written.
[[nodiscard]] std::vector<SheetBar> sheet_bars(const chart::Form& form,
                                               const guitar::VoicingPlan& plan,
                                               const std::vector<BarAsWritten>& written);

}  // namespace compline::report
