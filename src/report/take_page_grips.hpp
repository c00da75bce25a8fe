#pragma once

#include "page_part.hpp"

#include <compline/practice/report.hpp>
#include <compline/report/fret_diagram.hpp>

namespace compline::guitar {
struct VoicingPlan;
}

namespace compline::report {

/// The places that cost most, each with the grip that was held and the one that was due, side by
/// side; a tone that is not the chord's is a diamond. `shown`: the plan that was played by; null:
/// none. Nothing where strings are not known.
[[nodiscard]] PagePart grips_part(const practice::Report& report, Hand hand,
                                  const guitar::VoicingPlan* shown = nullptr);

}  // namespace compline::report
