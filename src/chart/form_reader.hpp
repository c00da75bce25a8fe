#pragma once

#include "section_reader.hpp"

#include <compline/chart/chart.hpp>
#include <compline/yaml/file_reading.hpp>
#include <compline/yaml/tree.hpp>

#include <vector>

namespace compline::chart {

/// Reads the list that is the form: `[A x2, B, A ending 2]`. The names are checked against the
/// sections, the form against the limit of bars. `has_coda`: the section Coda is played by al coda
/// alone.
[[nodiscard]] std::vector<FormPart> read_form(const yaml::TreeNode& list, const Sections& sections,
                                              bool has_coda, const yaml::FileReading& reading);

/// The form of a chart that gives none: each section once, one with endings once for each of them.
[[nodiscard]] std::vector<FormPart> form_in_file_order(const Sections& sections, bool has_coda);

}  // namespace compline::chart
