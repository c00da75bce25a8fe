#pragma once

#include <compline/band/bass_bar.hpp>
#include <compline/guitar/voicing_plan.hpp>
#include <compline/roadmap/road_map.hpp>

#include <optional>

namespace compline::band {

// What a band ends a tune on: its tonic.

/// The tonic for a guitar, as the plan plays it last, else as a shell; nothing where neither is
/// there.
[[nodiscard]] std::optional<guitar::Shape> tonic_shape(const guitar::VoicingPlan& plan,
                                                       const chart::Key& key);

/// And for the bass: a bar of it, in the meter of the last. `plan`: of a guitar that it stays
/// below.
[[nodiscard]] BassBar tonic_bar(const roadmap::RoadMap& map,
                                const std::optional<guitar::VoicingPlan>& plan);

}  // namespace compline::band
