#pragma once

#include <compline/band/band.hpp>
#include <compline/band/bass.hpp>
#include <compline/band/drums.hpp>

#include <optional>
#include <vector>

namespace compline::band {

/// Writes the band's part a time through at a time, also for a band that plays until it is stopped.
///
/// The notes of a time through are written by the road map as it was known when that time through
/// began; what was decided later takes out what is not played of them (sift.hpp). So whatever is
/// decided, and when, what has been heard stays what would be written (2026-11-30).
///
/// A value: a copy writes on from the same place, whatever becomes of the other.
class PartWriter {
  public:
    /// The map has a melody and a guitar on exactly when the players bring them (asserted).
    PartWriter(roadmap::RoadMap map, Players players);

    /// The next time through, the count-in before the first and a held ending behind the last.
    /// Nothing after the last.
    [[nodiscard]] std::optional<Part> next();

    /// Times through that have been written.
    [[nodiscard]] int written() const { return written_; }

    /// From here on by another map, the same as the one before up to where the last time through
    /// that was written began.
    void follow(roadmap::RoadMap map);

  private:
    roadmap::RoadMap map_;
    roadmap::RoadMap known_;  ///< when the last time through began that was written
    Players players_;
    int written_ = 0;
    BassWriter bass_;
    LastFigures last_figures_;
};

}  // namespace compline::band
