#pragma once

#include <cstdint>
#include <deque>

namespace compline::time {

/// The smallest of the latest values: those no farther back than `length`, and the last `at_least`
/// however far back they are. Amortised O(1) a value: kept are only values that may still become
/// the smallest, which rise from front to back.
///
/// Positions and length are whole numbers of any one unit (frames, nanoseconds).
class SlidingMinimum {
  public:
    /// length: more than 0; at_least: 1 or more.
    SlidingMinimum(std::int64_t length, std::int64_t at_least);

    /// Positions never go back.
    void push(std::int64_t position, std::int64_t value);

    /// Needs a value (asserted).
    [[nodiscard]] std::int64_t minimum() const;
    [[nodiscard]] bool empty() const { return rising_.empty(); }

    /// Forgets what `other`, a shorter view of the same values, has forgotten.
    void shorten_to(const SlidingMinimum& other) { rising_ = other.rising_; }

  private:
    struct NumberedValue {
        std::int64_t number;  // how many values came before it
        std::int64_t position;
        std::int64_t value;
    };

    std::int64_t length_;
    std::int64_t at_least_;
    std::int64_t count_ = 0;
    std::deque<NumberedValue> rising_;
};

}  // namespace compline::time
