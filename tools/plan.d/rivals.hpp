#pragma once

#include <guitar/stops.hpp>

namespace compline::plan_rivals {

// Two ways to choose voicings without looking ahead, among the same grips and paying the same.

/// What players do who do not look ahead: the first chord where it lies best, then always what is
/// nearest.
[[nodiscard]] guitar::WayRound nearest_next(const std::vector<guitar::Stop>& stops);

/// What books of chord pictures do: each chord by itself, as low on the neck as it goes, and there
/// as it lies best.
[[nodiscard]] guitar::WayRound lowest_position(const std::vector<guitar::Stop>& stops);

/// Frets that fingers travel, one time through and back to the top.
[[nodiscard]] int travel(const guitar::Fretboard& fretboard, const std::vector<guitar::Stop>& stops,
                         const guitar::WayRound& way);

}  // namespace compline::plan_rivals
