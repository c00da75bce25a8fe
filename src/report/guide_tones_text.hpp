#pragma once

#include <compline/chart/form.hpp>
#include <compline/guitar/voicing_plan.hpp>

#include <string>

namespace compline::report {

/// The line of thirds and sevenths, a change a line: where the two voices lie, what they are, and
/// how far each goes. A section that comes again alike is named, not written out again. Ends with
/// an empty line.
[[nodiscard]] std::string guide_tones_text(const chart::Form& form,
                                           const guitar::VoicingPlan& plan);

}  // namespace compline::report
