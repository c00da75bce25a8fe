#pragma once

#include "sheet.hpp"
#include "svg.hpp"

namespace compline::report {

/// Draws a row where the sheet has it.
void draw_row(Drawing& drawing, const Sheet& sheet, const SheetRow& row);

}  // namespace compline::report
