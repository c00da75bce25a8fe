#pragma once

#include <compline/chart/form.hpp>

namespace compline::practice {

/// The row that a bar of the form stands in, as a player reads a chart: up to four bars of its
/// section.
[[nodiscard]] chart::Passage row_of(const chart::Form& form, int bar);

/// The section that it stands in, as it is played there.
[[nodiscard]] chart::Passage section_around(const chart::Form& form, int bar);

}  // namespace compline::practice
