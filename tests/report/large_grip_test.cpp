// The neck as the large view draws it.

#include "../src/report/large_grip.hpp"

#include "support/catch.hpp"
#include "support/comper.hpp"

using namespace compline;
using namespace compline::report;

namespace {

std::vector<std::string> neck(const guitar::Grip& grip, GlyphSet set, Hand hand) {
    const GripLook look{set};
    Canvas canvas(look.columns(grip.shape.strings), look.lines(frets_of(grip.shape)));
    draw(canvas, grip, look, 0, 0, hand);
    return canvas.drawn();
}

/// The same on a guitar whose strings are the other way round.
guitar::Grip mirrored(const guitar::Grip& grip) {
    auto other = grip;
    for (int string = 1; string <= grip.shape.strings; ++string) {
        const int mirror = grip.shape.strings + 1 - string;
        other.shape.on(string) = grip.shape.on(mirror);
        other.fingers.at(static_cast<std::size_t>(string - 1)) = grip.on(mirror);
    }
    return other;
}

}  // namespace

TEST_CASE("a left-handed player sees the large neck the other way round", "[report]") {
    for (const char* shape : {"x32010", "1x12xx", "x-10-8-8-x-x", "355333"}) {
        guitar::Grip grip;
        grip.shape = tests::shape(shape);
        if (grip.shape.on(5)) grip.fingers[4] = guitar::Finger::ring;
        CAPTURE(shape);
        for (const auto set : {GlyphSet::small, GlyphSet::large}) {
            CHECK(neck(grip, set, Hand::left) == neck(mirrored(grip), set, Hand::right));
            CHECK(neck(grip, set, Hand::left) != neck(grip, set, Hand::right));
        }
    }
}
