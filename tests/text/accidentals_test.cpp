// Flats and sharps for terminals that have no signs.

#include "support/catch.hpp"

#include <compline/text/accidentals.hpp>

using compline::text::with_letters;

TEST_CASE("flats and sharps can be written with letters, and all else stays", "[text]") {
    CHECK(with_letters("B♭m7♭5 → F♯7♯9") == "Bbm7b5 → F#7#9");
    CHECK(with_letters("E𝄫 G𝄪 A♮") == "Ebb G## An");
    CHECK(with_letters("") == "");
    CHECK(with_letters("│ 1 ø △") == "│ 1 ø △");
    CHECK(with_letters("\xE2\x99") == "\xE2\x99");
}
