#pragma once

#include "canvas.hpp"

#include <compline/guitar/grip.hpp>
#include <compline/report/fret_diagram.hpp>

#include <optional>

namespace compline::report {

/// How a grip is drawn large: thin lines are the neck, heavy digits the fingers, so that the eye
/// finds these. The number at the side is the first fret's, at its height; above the strings x and
/// o; the nut is a heavy line.
struct GripLook {
    GlyphSet set = GlyphSet::small;

    [[nodiscard]] int columns(int strings) const;
    /// Of a diagram of so many frets.
    [[nodiscard]] int lines(int frets) const;
};

/// The frets that its diagram has: four, or as many more as it needs.
[[nodiscard]] int frets_of(const guitar::Shape& shape);

/// From a column and a line on, as this player sees the neck.
void draw(Canvas& canvas, const guitar::Grip& grip, GripLook look, int column, int line,
          Hand hand = Hand::right);

}  // namespace compline::report
