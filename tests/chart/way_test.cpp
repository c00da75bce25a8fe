#include "support/catch.hpp"

#include <compline/chart/way.hpp>

#include <vector>

using namespace compline;
using chart::Passage;
using chart::Stretch;
using chart::Way;

namespace {

Way way_of(const std::vector<Passage>& passages, bool goes_on = false) {
    Way way;
    for (const auto passage : passages) way.stretches.push_back({passage, "", {}, false});
    way.goes_on = goes_on;
    return way;
}

}  // namespace

TEST_CASE("a passage played four times is a way of four stretches that ends") {
    const auto way = Way::of({9, 12}, 4);
    CHECK(way.times_through() == 4);
    CHECK(way.is_uniform());
    CHECK(!way.goes_on);
    CHECK(!way.held_ending);
    CHECK(way.stretch(1) == Stretch{{9, 12}, "", {}, false});
    CHECK(way.stretch(4) == way.stretch(1));
    CHECK(way.bars_before(1) == 0);
    CHECK(way.bars_before(4) == 12);
}

TEST_CASE("a tune that is played to its end ends on a held chord, a passage or a loop does not") {
    chart::Form form;
    form.bars.resize(12);
    for (const int times : {1, 3}) {
        const auto tune = Way::through(form, {1, 12}, times);
        CHECK(tune.held_ending);
        CHECK(tune.stretches == Way::of({1, 12}, times).stretches);
        CHECK_FALSE(Way::through(form, {9, 12}, times).held_ending);
        CHECK_FALSE(Way::through(form, {1, 11}, times).held_ending);
    }
    CHECK_FALSE(Way::through(form, {1, 12}, std::nullopt).held_ending);
    // Who stops after the first of three does not hear the end.
    CHECK_FALSE(Way::through(form, {1, 12}, 3).first(1).held_ending);
}

TEST_CASE("a passage played until stopped never ends") {
    const auto way = Way::of({9, 12}, std::nullopt);
    CHECK(!way.times_through().has_value());
    CHECK(way.goes_on);
    CHECK(way.bars_before(1000001) == 4000000);
    CHECK(way.stretch(1000001).passage == Passage{9, 12});
}

TEST_CASE("the bars of unlike stretches add up to those before a time through") {
    const auto way = way_of({{5, 8}, {1, 8}, {2, 3}});
    CHECK(!way.is_uniform());
    CHECK(way.times_through() == 3);
    CHECK(way.bars_before(2) == 4);
    CHECK(way.bars_before(3) == 12);
    CHECK(way.bars_before(4) == 14);
    CHECK(way.reach() == Passage{1, 8});
}

TEST_CASE("past the stretches that are listed a way that goes on has its last one") {
    const auto way = way_of({{5, 8}, {1, 8}, {2, 3}}, true);
    CHECK(!way.times_through().has_value());
    CHECK(way.stretch(51).passage == Passage{2, 3});
    CHECK(way.bars_before(4) == 14);
    CHECK(way.bars_before(11) == 12 + 8 * 2);
    CHECK(way.first(5).stretches == way_of({{5, 8}, {1, 8}, {2, 3}, {2, 3}, {2, 3}}).stretches);
    CHECK(way.first(5).times_through() == 5);
}
