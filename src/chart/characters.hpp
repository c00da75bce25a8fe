#pragma once

#include "problem_list.hpp"
#include "source_text.hpp"

namespace compline::chart {

/// Refuses what no chart may hold, wherever it stands: bytes that are not UTF-8, tabs, control and
/// misleading characters. Each line's first is reported; all are blanked out.
void check_characters(SourceText& source, ProblemList& problems);

}  // namespace compline::chart
