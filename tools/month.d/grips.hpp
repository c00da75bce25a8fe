#pragma once

#include <compline/guitar/shape.hpp>
#include <compline/harmony/chord.hpp>

#include <optional>

namespace compline::month {

// Which grip a pupil takes, and what a finger beside it does. By the hand-written grips of the
// simulated guitarist, and a table of what anybody hears as wrong.

/// The known grip that is nearest to the last one; none: that chord is not known.
[[nodiscard]] std::optional<guitar::Shape> next_grip(const harmony::Chord& chord,
                                                     const std::optional<guitar::Shape>& last);

/// The same with a finger a fret off, where anybody hears that it is wrong: a minor third in a
/// major chord, a major seventh in a dominant. None: no finger can.
[[nodiscard]] std::optional<guitar::Shape> a_fret_off(const harmony::Chord& chord,
                                                      const guitar::Shape& grip);

/// A tone of the grip has no place in any grip of that chord.
[[nodiscard]] bool clashes(const guitar::Shape& grip, const harmony::Chord& chord);

}  // namespace compline::month
