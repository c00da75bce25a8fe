#pragma once

#include <compline/band/band.hpp>
#include <compline/band/bass.hpp>
#include <compline/band/drums.hpp>

#include <optional>
#include <vector>

namespace compline::band {

/// Writes the band's part a time through at a time, also for a band that plays until it is stopped.
class PartWriter {
  public:
    /// The map has a melody and a guitar on exactly when the players bring them (asserted).
    PartWriter(roadmap::RoadMap map, Players players);

    /// The next time through, the count-in before the first and a held ending behind the last.
    /// Nothing after the last.
    [[nodiscard]] std::optional<Part> next();

  private:
    roadmap::RoadMap map_;
    Players players_;
    int written_ = 0;
    BassWriter bass_;
    LastFigures last_figures_;
};

}  // namespace compline::band
