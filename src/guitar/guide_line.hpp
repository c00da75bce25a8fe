#pragma once

#include "movable_shapes.hpp"

#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/shape.hpp>
#include <compline/harmony/chord.hpp>

#include <optional>
#include <utility>
#include <vector>

namespace compline::guitar {

// Third and seventh of each chord on two strings, one line through the whole form: what a comper
// hears first in a tune, and what the grips of the ladder (see VoicingStyle) have in common. Common
// practice, no source.

/// The two tones: third (of a sus the fourth or second, of an eleventh without third the fourth)
/// and seventh or sixth; of a triad its fifth in place of that, of a power chord root and fifth, of
/// a triad without fifth root and third.
[[nodiscard]] ToneBits guide_tones_of(const harmony::Chord& chord);

/// Two strings side by side out of those that may sound, the nearest to strings 4 and 3; of three
/// and more not the lowest, which is for a root. None where there is no such pair.
[[nodiscard]] std::optional<std::pair<int, int>> guide_strings(std::vector<int> strings);

/// Where each chord's guide tones lie, played over and over: of all such lines the one whose two
/// voices move least; of equals the one nearer to the middle of the neck. `near_fret`: or nearer to
/// that fret. `strings`: the lower and the higher. A chord whose guide tones no hand reaches there
/// gets a shape in which no string sounds.
[[nodiscard]] std::vector<Shape> guide_line(const std::vector<harmony::Chord>& chords,
                                            const Fretboard& fretboard, std::pair<int, int> strings,
                                            std::optional<int> near_fret);

}  // namespace compline::guitar
