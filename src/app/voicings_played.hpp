#pragma once

#include "command.hpp"

#include <compline/chart/route.hpp>
#include <compline/guitar/voicing_plan.hpp>

#include <optional>
#include <string>

namespace compline::app {

/// The option --voicings; `what`: what is done with them.
[[nodiscard]] Option voicings_option(std::string& words, const std::string& what);

/// The voicings asked for by --voicings, for all bars that a route goes through; nothing where it
/// was not given. Throws BadInput.
[[nodiscard]] std::optional<guitar::VoicingPlan> read_voicings_played(const std::string& words,
                                                                      const chart::Form& form,
                                                                      const chart::Route& route,
                                                                      time::Bpm tempo);

}  // namespace compline::app
