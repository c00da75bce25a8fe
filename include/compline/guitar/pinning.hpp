#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/shape.hpp>
#include <compline/harmony/palette.hpp>

#include <optional>
#include <string>

namespace compline::guitar {

/// What stands against a shape that is to be held for a chord whatever else is wished: "which lacks
/// the 3", "which no hand can hold". None: it can be pinned there. A pin is right to the judge and
/// within a hand's reach, and that is all (2026-11-26).
[[nodiscard]] std::optional<std::string> why_not_pinned(const Fretboard& fretboard,
                                                        const Shape& shape,
                                                        const harmony::Palette& palette);

}  // namespace compline::guitar
