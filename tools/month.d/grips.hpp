#pragma once

#include <compline/guitar/shape.hpp>
#include <compline/harmony/chord.hpp>

#include <optional>
#include <vector>

namespace compline::month {

// Which grip a pupil takes, and what a finger beside it does. By the hand-written grips of the
// simulated guitarist, and a table of what anybody hears as wrong.

/// The known grip that is nearest to the last one; none: that chord is not known.
[[nodiscard]] std::optional<guitar::Shape> next_grip(const harmony::Chord& chord,
                                                     const std::optional<guitar::Shape>& last);

/// The same with a finger a fret off, each where anybody hears that it is wrong: a minor third in a
/// major chord, a major seventh in a dominant.
[[nodiscard]] std::vector<guitar::Shape> a_fret_off(const harmony::Chord& chord,
                                                    const guitar::Shape& grip);

/// Anybody hears that the grip is not of that chord: a tone is plainly wrong, or three are in
/// none of its grips.
[[nodiscard]] bool clashes(const guitar::Shape& grip, const harmony::Chord& chord);

}  // namespace compline::month
