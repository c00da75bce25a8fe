#pragma once

#include <compline/time/units.hpp>

#include <vector>

namespace compline::time {

/// Where sound was lost or the clock stepped. The same lost sound may be noticed twice, by a flag
/// of the audio API and by the clock map, a few blocks apart and in any order: what lies close
/// together is one step.
class ClockSteps {
  public:
    enum class Kind {
        lost,    ///< sound was lost: an xrun
        stepped  ///< the clock stepped, no sound was lost
    };

    /// Takes a step at stream time `at`, unless one is known within `close`; that one then counts
    /// as lost sound when either does.
    void add(Seconds at, Kind kind, Seconds close);

    /// In order. A chain of steps close to each other stands here as one in each `close`, so this
    /// grows by at most 1/close a second of trouble.
    [[nodiscard]] const std::vector<Seconds>& times() const { return times_; }
    /// At how many of them sound was lost.
    [[nodiscard]] int losses() const { return losses_; }
    /// Whether one lies within `distance` before or after.
    [[nodiscard]] bool any_near(Seconds at, Seconds distance) const;

  private:
    std::vector<Seconds> times_;
    std::vector<Kind> kinds_;  // of each
    int losses_ = 0;
};

}  // namespace compline::time
