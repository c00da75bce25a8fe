#pragma once

#include <compline/practice/hand_against_plan.hpp>
#include <compline/report/report.hpp>

#include <string>

namespace compline::report {

// The hand of a take beside a plan of voicings, in words.

/// Plain text, no wider than 80 columns: how far the fingers went in one time through, and the
/// plan; where they went furthest beyond it, with both grips and the one that lay nearer; what was
/// passed over. Or why nothing is known. Ends with a newline.
[[nodiscard]] std::string hand_text(const practice::HandAgainstPlan& hand,
                                    Listing listing = Listing::one_screen);

/// "Your fingers went 118 frets in one time through, the plan's go 46."; empty where nothing is
/// known.
[[nodiscard]] std::string hand_sentence(const practice::HandAgainstPlan& hand);

}  // namespace compline::report
