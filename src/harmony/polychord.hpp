#pragma once

#include <compline/harmony/chord.hpp>

#include <optional>
#include <string>

namespace compline::harmony {

// A triad over a seventh chord, D/C7: an upper structure. It is the chord that has the tones of
// both and no other (C13#11), where that can be said in two alterations at most.

/// Nothing where it cannot be said, or where they are no triad over a seventh chord.
[[nodiscard]] std::optional<Chord> polychord(const Chord& upper, const Chord& lower);

/// In the player's words, where polychord() is nothing.
[[nodiscard]] std::string why_no_polychord(const Chord& upper, const Chord& lower);

}  // namespace compline::harmony
