#pragma once

#include "page_part.hpp"

#include <compline/practice/report.hpp>

namespace compline::report {

/// How much was in time at each tempo: a column a tempo, as high as the share of the changes that
/// were, with a line at nine in ten, which a ladder calls clean. Nothing where there was one tempo.
[[nodiscard]] PagePart tempi_part(const practice::Report& report);

}  // namespace compline::report
