#pragma once

#include <compline/yaml/problem_list.hpp>
#include <compline/yaml/source_text.hpp>

namespace compline::yaml {

/// Refuses what no chart may hold, wherever it stands: bytes that are not UTF-8, tabs, control and
/// misleading characters. Each line's first is reported; all are blanked out.
void check_characters(SourceText& source, ProblemList& problems);

}  // namespace compline::yaml
