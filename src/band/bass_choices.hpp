#pragma once

#include "bass_rhythm.hpp"

#include <compline/band/walk.hpp>

#include <vector>

namespace compline::band {

/// How high a line is to be as it goes on: up for a bar or two, then down, between the ends of the
/// settled register, from where it stands; chance says how far and how long. So a line is always on
/// its way somewhere.
class Contour {
  public:
    Contour(Chance chance, int start, time::Ticks length);
    [[nodiscard]] int at(time::Ticks position) const;  ///< a MIDI note number

  private:
    struct Point {
        time::Ticks at;
        int height;
    };
    std::vector<Point> points_;
};

/// What the choices of a place depend on.
struct Outlook {
    const std::vector<Change>& changes;
    time::Meter meter;
    int home = 0;  ///< pitch class of the very last note
};

/// What a place may be. style: of its bar, walking only where it walks. chance: of its bar;
/// stirred: 0 at first, more for each time that a line through here was thrown away.
[[nodiscard]] Step step_of(const Place& place, const Outlook& outlook, chart::Bass style,
                           int height, Chance chance, int stirred);

}  // namespace compline::band
