#pragma once

#include <compline/guitar/fretboard.hpp>
#include <compline/guitar/grip.hpp>

#include <optional>
#include <vector>

namespace compline::guitar {

// What was heard of a hand are strings and frets; which fingers were on them nobody hears. So the
// kindest is taken: those fingers that ask least of the hand over all shapes in a row, by the
// planner's own costs (see effort.hpp). What is said of the hand then is the least it must have
// done.

/// The grips of shapes held one after the other, all of this guitar. None stays none, and one that
/// no hand can hold becomes none: what comes behind it is fingered without regard to what was
/// before. The thumb is used only where nothing else will do. Deterministic.
[[nodiscard]] std::vector<std::optional<Grip>> likely_fingers(
    const Fretboard& fretboard, const std::vector<std::optional<Shape>>& shapes);

}  // namespace compline::guitar
