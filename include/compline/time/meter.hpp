#pragma once

#include <compline/time/units.hpp>

namespace compline::time {

/// Beats in a bar; the beat is a quarter note. Charts have 3/4 to 6/4.
class Meter {
  public:
    constexpr explicit Meter(int beats_per_bar) : beats_(beats_per_bar) {}
    [[nodiscard]] constexpr int beats() const { return beats_; }
    [[nodiscard]] constexpr Ticks beat() const { return quarter_note; }
    [[nodiscard]] constexpr Ticks bar() const { return quarter_note * beats_; }
    auto operator<=>(const Meter&) const = default;

  private:
    int beats_;
};

}  // namespace compline::time
