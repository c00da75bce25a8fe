#pragma once

#include "keyed_chance.hpp"

#include <compline/time/units.hpp>

#include <vector>

namespace compline::band {

/// How high a line is to be as it goes on: up for a bar or two, then down, between the ends of the
/// settled register, from where it stands; chance says how far and how long. So a line is always on
/// its way somewhere.
class Contour {
  public:
    /// beat: as the line goes.
    Contour(KeyedChance chance, int start, time::Ticks length, time::Ticks beat);
    [[nodiscard]] int at(time::Ticks position) const;  ///< a MIDI note number

  private:
    struct ContourPoint {
        time::Ticks at;
        int height;
    };
    std::vector<ContourPoint> points_;
};

}  // namespace compline::band
