#pragma once

#include "command.hpp"
#include "voicing_options.hpp"

#include <compline/guitar/voicing_plan.hpp>
#include <compline/roadmap/road_map.hpp>

#include <optional>
#include <string>

namespace compline::app {

/// The option --voicings; `what`: what is done with them.
[[nodiscard]] Option voicings_option(AsGiven& words, const std::string& what);

/// The voicings asked for by --voicings, for all bars that a road map goes through; nothing where
/// it was not given. `usual`: the guitar, and what is wished where the words say nothing. Throws
/// BadInput.
[[nodiscard]] std::optional<guitar::VoicingPlan> read_voicings_played(const AsGiven& words,
                                                                      const roadmap::RoadMap& map,
                                                                      const VoicingOptions& usual);

}  // namespace compline::app
