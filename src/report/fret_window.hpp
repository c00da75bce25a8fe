#pragma once

#include <compline/guitar/shape.hpp>

namespace compline::report {

/// The frets that a diagram shows: four, or as many more as the shape needs.
struct FretWindow {
    int first = 1;
    int frets = 4;
    /// The diagram's upper edge is the nut (or the capo).
    [[nodiscard]] bool at_nut() const { return first == 1; }
};

/// From the nut on for what lies in the first four frets, else from the lowest fretted one on.
[[nodiscard]] FretWindow window_of(const guitar::Shape& shape);

}  // namespace compline::report
