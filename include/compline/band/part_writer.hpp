#pragma once

#include <compline/band/band.hpp>
#include <compline/band/bass.hpp>

#include <optional>

namespace compline::band {

/// Writes the band's part a time through at a time, also for a band that plays until it is stopped.
/// The form must outlive it.
class PartWriter {
  public:
    /// times_through: 1 or more (asserted); none: until nobody asks for more. count_in_bars: 0
    /// to 2.
    PartWriter(const chart::Form& form, chart::Passage passage, std::optional<int> times_through,
               int count_in_bars);

    /// The next time through, the count-in before the first. Nothing after the last.
    [[nodiscard]] std::optional<Part> next();

  private:
    const chart::Form& form_;
    chart::Passage passage_;
    std::optional<int> times_through_;
    int count_in_bars_;
    int written_ = 0;
    BassWriter bass_;
};

}  // namespace compline::band
