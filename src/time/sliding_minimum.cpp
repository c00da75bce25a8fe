#include <compline/time/sliding_minimum.hpp>

#include <cassert>

namespace compline::time {

SlidingMinimum::SlidingMinimum(std::int64_t length, std::int64_t at_least)
    : length_(length), at_least_(at_least) {
    assert(length > 0 && at_least >= 1);
}

void SlidingMinimum::push(std::int64_t position, std::int64_t value) {
    // What came earlier and is no smaller leaves the window first: it never counts again.
    while (!rising_.empty() && rising_.back().value >= value) rising_.pop_back();
    rising_.push_back({count_++, position, value});
    while (rising_.front().position <= position - length_ &&
           rising_.front().number < count_ - at_least_) {
        rising_.pop_front();
    }
}

std::int64_t SlidingMinimum::minimum() const {
    assert(!empty());
    return rising_.front().value;
}

}  // namespace compline::time
