#pragma once

#include "option.hpp"

#include <string>
#include <vector>

namespace compline::app {

/// The MIDI pedal of an evening, as it was typed.
struct PedalOptions {
    std::string switches;  ///< what they ask for (practice::Pedal); empty: there is none
    std::string in;        ///< its own input; empty: the guitar's
};

/// --pedal and --pedal-in.
[[nodiscard]] std::vector<Option> options_of(PedalOptions& options);

/// Refuses what is no pedal, and one that nobody could hear. `guitar`: what was typed for --in.
/// Throws text::BadInput.
void check_pedal(const PedalOptions& options, const std::string& guitar);

}  // namespace compline::app
