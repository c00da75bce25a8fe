#pragma once

#include <compline/guitar/voicing_plan.hpp>

#include <map>
#include <string>

namespace compline::tests {

/// Shapes by chord symbol, "3x34xx" from string 6 to string 1, and their fingers, "1x23xx".
using Grips = std::map<std::string, std::pair<std::string, std::string>>;

/// A plan made by hand: these grips on every change of the form, shells on the chords that are not
/// among them.
guitar::VoicingPlan plan_by_hand(const chart::Form& form, const Grips& grips = {});

}  // namespace compline::tests
