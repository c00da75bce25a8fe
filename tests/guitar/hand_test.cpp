#include "support/catch.hpp"
#include "support/hand_rules.hpp"

#include <compline/chart/pins.hpp>
#include <compline/guitar/hand.hpp>
#include <compline/simulate/chance.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace compline;

namespace {

guitar::Shape shape(const std::string& text) {
    return guitar::Shape::of(chart::read_shape_text(text));
}

std::vector<std::string> ways(const std::string& text, const guitar::Hands& hands = {},
                              int capo = 0) {
    std::vector<std::string> all;
    for (const auto& grip : guitar::fingerings(shape(text), hands, capo)) {
        all.push_back(grip.finger_text());
    }
    return all;
}

bool among(const std::vector<std::string>& all, const std::string& one) {
    return std::find(all.begin(), all.end(), one) != all.end();
}

const guitar::Hands fingers{false, guitar::RightHand::fingers};
const guitar::Hands thumb{true, guitar::RightHand::pick};

}  // namespace

// Common practice, no source.
TEST_CASE("a comper's everyday grips can be held as players hold them", "[guitar]") {
    CHECK(among(ways("3x443x"), "2x341x"));  // Gmaj7: both fingers of a fret in the other order
    CHECK(among(ways("3x333x"), "2x333x"));  // Gm7: the ring finger lies across three strings
    CHECK(among(ways("x5x56x"), "x2x34x"));
    CHECK(among(ways("3x34xx"), "2x34xx"));
    CHECK(among(ways("133211"), "134211"));  // the index under all
    CHECK(among(ways("x13331"), "x13331"));  // and the ring finger within the index's barre
    CHECK(among(ways("x02210"), "x02310"));
}

TEST_CASE("what no hand can do is not fingered", "[guitar]") {
    CHECK(ways("1x5xxx").empty());                 // four frets below the fifth
    CHECK_FALSE(ways("5x9xxx").empty());           // from there on four can be spanned
    CHECK(ways("5-x-10-x-x-x").empty());           // but not five
    CHECK(ways("1234x5").empty());                 // five fingers
    CHECK_FALSE(among(ways("x53xxx"), "x12xxx"));  // a higher finger does not fret lower
    CHECK_FALSE(among(ways("x35xxx"), "x23xxx"));  // middle and ring two frets apart, down there
    CHECK(among(ways("x-9-11-x-x-x"), "x23xxx"));  // up there they may
    CHECK(among(ways("x35xxx"), "x12xxx"));        // index and middle may everywhere
}

TEST_CASE("a barre lies only where the shape lets it", "[guitar]") {
    CHECK_FALSE(among(ways("3x3xxx"), "1x1xxx"));  // over a muted string, with a pick
    CHECK(among(ways("3x3xxx", fingers), "1x1xxx"));
    CHECK_FALSE(among(ways("x3033x"), "x1011x"));  // over an open string
    CHECK_FALSE(among(ways("x323xx"), "x212xx"));  // over a lower one
    CHECK_FALSE(among(ways("x5575x"), "x2242x"));  // a middle finger with another within
    CHECK(among(ways("x5575x"), "x1131x"));        // the index can
    CHECK_FALSE(among(ways("5555xx"), "3333xx"));  // four strings are the index's
}

TEST_CASE("the thumb frets the lowest string, where it is asked to", "[guitar]") {
    CHECK(among(ways("3x443x", thumb), "Tx231x"));
    CHECK_FALSE(among(ways("3x443x"), "Tx231x"));
    CHECK_FALSE(among(ways("x3x45x", thumb), "xTx12x"));
    CHECK_FALSE(among(ways("3x555x", thumb), "Tx111x"));  // two frets from the fingers
}

TEST_CASE("a capo moves the frets that are wide, and the limits with them", "[guitar]") {
    CHECK(ways("1x5xxx", {}, 0).empty());
    CHECK_FALSE(ways("1x5xxx", {}, 4).empty());
}

TEST_CASE("a pick leaves out one string at most, and a finger beside it keeps it still",
          "[guitar]") {
    using guitar::can_strike;
    using guitar::RightHand;
    CHECK(can_strike(shape("3x34xx"), RightHand::pick));
    CHECK_FALSE(can_strike(shape("3xx43x"), RightHand::pick));
    CHECK_FALSE(can_strike(shape("3x3x4x"), RightHand::pick));
    CHECK_FALSE(can_strike(shape("0x0xxx"), RightHand::pick));  // nothing touches the fifth
    CHECK(can_strike(shape("0x2xxx"), RightHand::pick));
    CHECK(can_strike(shape("xx545x"), RightHand::pick));
    CHECK(can_strike(shape("3xx43x"), RightHand::fingers));
}

TEST_CASE("every fingering satisfies a teacher, and every grip that satisfies him is found",
          "[guitar]") {
    const auto fretboard = guitar::Fretboard::standard();
    simulate::Chance chance(1);
    int held = 0;
    for (int n = 0; n < 20000; ++n) {
        guitar::Hands hands;
        hands.thumb = chance.below(3) == 0;
        hands.right = chance.below(2) == 0 ? guitar::RightHand::pick : guitar::RightHand::fingers;
        guitar::Shape some;
        const auto lowest = 1 + chance.below(12);
        for (int string = 1; string <= 6; ++string) {
            const auto pick = chance.below(9);
            if (pick < 6) some.on(string) = static_cast<int>(pick == 5 ? 0 : lowest + pick);
        }
        if (some.places().empty() || !guitar::can_strike(some, hands.right)) continue;
        const auto found = guitar::fingerings(some, hands);
        for (const auto& grip : found) {
            CAPTURE(some.text(), grip.finger_text());
            REQUIRE(tests::fault_of(grip, fretboard, hands).empty());
        }
        held += static_cast<int>(found.size());
        // Any fingers at all on the strings that are held: what the teacher allows is among them.
        for (int m = 0; m < 20; ++m) {
            guitar::Grip grip{some, {}};
            for (const auto& place : some.places()) {
                if (place.fret == 0) continue;
                grip.fingers[static_cast<std::size_t>(place.string - 1)] =
                    static_cast<guitar::Finger>(1 + chance.below(5));
            }
            if (!tests::fault_of(grip, fretboard, hands).empty()) continue;
            CAPTURE(some.text(), grip.finger_text());
            REQUIRE(std::find(found.begin(), found.end(), grip) != found.end());
        }
    }
    CHECK(held > 5000);
}
