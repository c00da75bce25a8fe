#pragma once

#include "packed_grip.hpp"
#include "work_count.hpp"

#include <cstdint>
#include <vector>

namespace compline::guitar {

/// finger_reach() of all places a finger can be on one guitar, as rows to be read quickly: eight
/// times the cost, and 1 where the finger guides. Of up to seven fingers the sum tells both.
class FingerTable {
  public:
    static constexpr int scale = 8;

    /// `work`: counts every search that is made with this table.
    FingerTable(int strings, int frets, WorkCount* work = nullptr);

    [[nodiscard]] WorkCount* work() const { return work_; }

    /// To a place (see place_of) from each.
    [[nodiscard]] const std::int16_t* to(std::uint16_t place) const {
        return &to_[place * places_];
    }
    /// From a place to each.
    [[nodiscard]] const std::int16_t* from(std::uint16_t place) const {
        return &from_[place * places_];
    }

  private:
    void fill(int from_cover, int to_cover);

    WorkCount* work_;
    int frets_;
    std::size_t places_;
    std::vector<std::int16_t> to_;
    std::vector<std::int16_t> from_;
};

}  // namespace compline::guitar
