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

/// The plan for all bars that a road map goes through. What is refused is said with `place` before
/// it. Throws BadInput.
[[nodiscard]] guitar::VoicingPlan plan_played(const std::string& place, const roadmap::RoadMap& map,
                                              const GuitarAndWishes& asked);

/// All that may be played of a map: the section too with which a ladder ends.
[[nodiscard]] chart::Passage reach_of(const roadmap::RoadMap& map);

/// The voicings asked for by --voicings, for all bars that a road map goes through; nothing where
/// it was not given. `usual`: the guitar, and what is wished where the words say nothing. Throws
/// BadInput.
[[nodiscard]] std::optional<guitar::VoicingPlan> read_voicings_played(const AsGiven& words,
                                                                      const roadmap::RoadMap& map,
                                                                      const VoicingOptions& usual);

}  // namespace compline::app
