#include "fret_window.hpp"

#include <algorithm>

namespace compline::report {

FretWindow window_of(const guitar::Shape& shape) {
    FretWindow window;
    int low = 0;
    int high = 0;
    for (const auto& place : shape.places()) {
        if (place.fret == 0) continue;
        low = low == 0 ? place.fret : std::min(low, place.fret);
        high = std::max(high, place.fret);
    }
    if (high > window.frets) window.first = low;
    window.frets = std::max(window.frets, high - window.first + 1);
    return window;
}

}  // namespace compline::report
