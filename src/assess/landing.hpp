#pragma once

#include "grid.hpp"
#include "sounding.hpp"
#include "target.hpp"

#include <optional>
#include <vector>

namespace compline::assess {

/// Where a change landed.
struct Landing {
    std::size_t strum = 0;  ///< index of the strum whose sounding set is judged
    time::Seconds first;    ///< onset that is judged: the pick, or a slide's arrival
    time::Seconds last;
};

/// Finds the landing of every change, in order: a strum lands one change at most.
class LandingFinder {
  public:
    LandingFinder(const Targets& targets, const std::vector<SoundingStrum>& strums,
                  const Grid& grid);

    /// One a target; nothing where the change never lands.
    [[nodiscard]] std::vector<std::optional<Landing>> find();

    /// From when on a strum may land target i, and until when.
    [[nodiscard]] time::Seconds window_start(std::size_t i) const;
    [[nodiscard]] time::Seconds window_end(std::size_t i) const;

    /// The first strum at or after `t`.
    [[nodiscard]] std::size_t first_strum_from(time::Seconds t) const;

    /// A grip that moves as a whole, one or two frets, into the next strum, which belongs to target
    /// i while the grip does not: the approach, never the landing.
    [[nodiscard]] bool is_approach(std::size_t strum, std::size_t i) const;

    /// The strum's sounding set could be a voicing of target i.
    [[nodiscard]] bool suits(std::size_t strum, std::size_t i) const;

  private:
    [[nodiscard]] std::optional<Landing> find_one(std::size_t i) const;
    [[nodiscard]] bool is_candidate(std::size_t strum, std::size_t i) const;
    [[nodiscard]] bool belongs_to_next(std::size_t strum, std::size_t i) const;
    [[nodiscard]] bool changes_grip(std::size_t strum) const;
    [[nodiscard]] std::vector<GridPoint> pushes(std::size_t i) const;
    [[nodiscard]] bool is_push(std::size_t strum, const std::vector<GridPoint>& pushes) const;
    [[nodiscard]] int doubt(std::size_t strum, std::size_t i) const;
    [[nodiscard]] std::optional<std::size_t> best_of_equals(const std::vector<std::size_t>& equals,
                                                            std::size_t i) const;
    [[nodiscard]] time::Seconds distance(std::size_t strum, std::size_t i) const;
    [[nodiscard]] Landing landing_at(std::size_t strum, std::size_t i) const;
    [[nodiscard]] time::Seconds due(std::size_t i) const;

    const Targets& targets_;
    const std::vector<SoundingStrum>& strums_;
    const Grid& grid_;
    std::size_t free_from_ = 0;  ///< strums before it have landed something
};

/// Marks the fills: double-stops away from the change, with a tone that the landing before them
/// does not hold. Two strings of the grip, struck again, are comping.
void mark_fills(std::vector<SoundingStrum>& strums,
                const std::vector<std::optional<Landing>>& landings);

/// By when the defining tones must have come: half the chord's length, at most two beats.
[[nodiscard]] time::Seconds tones_due_by(const Target& target, const Grid& grid);

}  // namespace compline::assess
