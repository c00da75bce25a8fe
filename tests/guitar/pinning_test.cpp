#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/guitar/pinning.hpp>

using namespace compline;
using namespace compline::tests;

namespace {

std::string why_not(const std::string& grip, const std::string& chord) {
    return guitar::why_not_pinned(guitar::Fretboard::standard(), shape(grip),
                                  {harmony::read_chord(chord), {}, harmony::Strictness::working})
        .value_or("");
}

}  // namespace

TEST_CASE("a grip that is right and can be held may be asked for", "[guitar]") {
    CHECK(why_not("x5x56x", "Dm7").empty());
    CHECK(why_not("x5x66x", "Dm7") == "in which C♯ does not belong");
    CHECK(why_not("x5x4xx", "G7") == "which lacks the ♭7");
    CHECK(why_not("x-x-1-x-10-x", "F7") == "which no hand can hold");
    CHECK(why_not("x-x-x-23-24-x", "Dm7") == "but there is no fret 23; the highest is 22");
}
