#pragma once

#include "command.hpp"

#include <compline/guitar/voicing_plan.hpp>
#include <compline/roadmap/road_map.hpp>

#include <optional>
#include <string>

namespace compline::app {

/// The option --voicings; `what`: what is done with them.
[[nodiscard]] Option voicings_option(std::string& words, const std::string& what);

/// The voicings asked for by --voicings, for all bars that a road map goes through; nothing where
/// it was not given. Throws BadInput.
[[nodiscard]] std::optional<guitar::VoicingPlan> read_voicings_played(const std::string& words,
                                                                      const roadmap::RoadMap& map);

}  // namespace compline::app
