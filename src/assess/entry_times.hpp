#pragma once

#include "grid.hpp"
#include "player.hpp"
#include "target.hpp"

#include <vector>

namespace compline::assess {

/// How likely a strum comes when it does, in nats.
class EntryTimes {
  public:
    EntryTimes(const Targets& targets, const Grid& grid, const Player& player);

    /// As the landing of a target, by the windows that were worked out for it.
    [[nodiscard]] double of_landing(time::Seconds t, std::size_t target) const;
    /// As a chord struck again: hands are late at changes, hardly at repeats.
    [[nodiscard]] double of_repeat(time::Seconds t) const;

    [[nodiscard]] time::Seconds due(std::size_t target) const { return due_[target]; }
    /// Within its tolerance: when it is due at the earliest, and when its chord is over.
    [[nodiscard]] time::Seconds due_from(std::size_t target) const { return due_from_[target]; }
    [[nodiscard]] time::Seconds over(std::size_t target) const { return over_[target]; }
    /// Nothing lands it earlier than this.
    [[nodiscard]] time::Seconds earliest(std::size_t target) const { return earliest_[target]; }

  private:
    /// Where changes come in, as a stretch of time.
    struct EntryWindow {
        time::Seconds from;
        time::Seconds to;
        double likely = 0;
        [[nodiscard]] time::Seconds distance(time::Seconds t) const;
    };
    [[nodiscard]] EntryWindow window(time::Ticks at) const;

    void add_windows(const Target& target);

    const Grid& grid_;
    const Player& player_;
    // Of each target.
    std::vector<time::Seconds> due_;
    std::vector<time::Seconds> due_from_;
    std::vector<time::Seconds> over_;
    std::vector<time::Seconds> earliest_;
    std::vector<std::size_t> first_window_;  ///< and one more, behind the last
    std::vector<EntryWindow> windows_;
};

}  // namespace compline::assess
