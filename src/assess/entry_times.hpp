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

    /// As the landing of a target.
    [[nodiscard]] double of_landing(time::Seconds t, std::size_t target) const;
    /// As a chord struck again: hands are late at changes, hardly at repeats.
    [[nodiscard]] double of_repeat(time::Seconds t) const;

    [[nodiscard]] time::Seconds due(std::size_t target) const { return due_[target]; }
    [[nodiscard]] time::Seconds end(std::size_t target) const { return ends_[target]; }

  private:
    /// Where changes come in, as a stretch of time.
    struct EntryWindow {
        time::Seconds from;
        time::Seconds to;
        [[nodiscard]] time::Seconds distance(time::Seconds t) const;
    };
    [[nodiscard]] EntryWindow window(time::Ticks at) const;

    const Targets& targets_;
    const Grid& grid_;
    const Player& player_;
    std::vector<time::Seconds> due_;
    std::vector<time::Seconds> ends_;
};

}  // namespace compline::assess
