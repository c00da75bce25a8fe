#include "support/catch.hpp"

#include <compline/simulate/chance.hpp>
#include <compline/time/sliding_minimum.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

using compline::time::SlidingMinimum;

namespace {

struct Value {
    std::int64_t position;
    std::int64_t value;
};

/// What it is by its definition: those no farther back than the length, and the last few.
std::int64_t by_scanning(const std::vector<Value>& values, std::int64_t length, std::size_t few) {
    std::int64_t least = values.back().value;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const bool recent = values[i].position > values.back().position - length;
        if (recent || i + few >= values.size()) least = std::min(least, values[i].value);
    }
    return least;
}

}  // namespace

TEST_CASE("a sliding minimum is what a scan of the window finds, through bursts and pauses") {
    compline::simulate::Chance chance(11);
    SlidingMinimum minimum(50, 4);
    std::vector<Value> values;
    std::int64_t position = 0;
    for (int i = 0; i < 2000; ++i) {
        position += static_cast<std::int64_t>(chance.below(chance.below(20) == 0 ? 200 : 10));
        values.push_back({position, static_cast<std::int64_t>(chance.below(1000)) - 500});
        minimum.push(values.back().position, values.back().value);
        REQUIRE(minimum.minimum() == by_scanning(values, 50, 4));
    }
}

TEST_CASE("a long sliding minimum can be cut to what a short one still sees") {
    SlidingMinimum longer(1000, 1);
    SlidingMinimum shorter(10, 1);
    for (std::int64_t i = 0; i < 20; ++i) {
        longer.push(i, i);
        shorter.push(i, i);
    }
    CHECK(longer.minimum() == 0);
    longer.shorten_to(shorter);
    CHECK(longer.minimum() == 10);
    longer.push(500, 40);
    CHECK(longer.minimum() == 10);  // and is long again from there
    longer.push(1011, 50);
    CHECK(longer.minimum() == 12);
}
