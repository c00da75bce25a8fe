#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/guitar/likely_fingers.hpp>
#include <compline/guitar/move.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

const auto neck = guitar::Fretboard::standard();

std::vector<std::optional<guitar::Grip>> fingered(const std::vector<std::string>& shapes) {
    std::vector<std::optional<guitar::Shape>> all;
    for (const auto& text : shapes) {
        all.push_back(text.empty() ? std::nullopt : std::optional(shape(text)));
    }
    return guitar::likely_fingers(neck, all);
}

}  // namespace

TEST_CASE("a grip that moves up as it is keeps its fingers", "[guitar]") {
    const auto grips = fingered({"x5x56x", "x6x67x", "x8x89x"});
    REQUIRE(grips.size() == 3);
    for (std::size_t i = 1; i < grips.size(); ++i) {
        CHECK(guitar::move_between(neck, *grips[i - 1], *grips[i]).whole_grip);
    }
}

TEST_CASE("fingers are taken to be those that leave the least to do over all grips", "[guitar]") {
    // The fifth on string 4 alone moves: whatever held the other strings stays where it is.
    const auto grips = fingered({"x5x56x", "x5756x"});
    for (const auto& finger : guitar::move_between(neck, *grips[0], *grips[1]).fingers) {
        CHECK((finger.act == guitar::Act::stays || finger.act == guitar::Act::lands));
    }
}

TEST_CASE("what no hand can hold has no fingers, and what comes behind it has", "[guitar]") {
    const auto grips = fingered({"x5x56x", "1x5x9x", "x5x56x", "", "3x34xx"});
    CHECK(grips[0].has_value());
    CHECK_FALSE(grips[1].has_value());
    CHECK(grips[2] == grips[0]);
    CHECK_FALSE(grips[3].has_value());
    CHECK(grips[4].has_value());
}

TEST_CASE("the thumb is believed where nothing else will do", "[guitar]") {
    const auto grips = fingered({"3x34xx", "2x4233"});
    for (const auto& finger : grips[0]->fingers) CHECK(finger != guitar::Finger::thumb);
    REQUIRE(grips[1].has_value());
}
