#pragma once

#include "page_part.hpp"

#include <compline/practice/report.hpp>
#include <compline/report/fret_diagram.hpp>

namespace compline::report {

/// The places that cost most, each with the grip that was held and the one that was due, side by
/// side; a tone that is not the chord's is a diamond. Nothing where strings are not known.
[[nodiscard]] PagePart grips_part(const practice::Report& report, Hand hand);

}  // namespace compline::report
