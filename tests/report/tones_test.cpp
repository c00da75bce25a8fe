#include "support/catch.hpp"

#include <compline/harmony/quality.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/tones.hpp>

#include <sstream>
#include <string>

using namespace compline;
using report::tones_text;

TEST_CASE("the tones of a chord: what is written, what must sound, what may and what never",
          "[report]") {
    CHECK(tones_text(harmony::read_chord("C9")) ==
          "C9\n"
          "  as written                1 C   3 E   5 G   ♭7 B♭   9 D\n"
          "  must sound                3 E   ♭7 B♭\n"
          "    in strictness written   9 D\n"
          "  may sound too             13 A\n"
          "  falling a fifth, semitone ♯11 F♯   ♭13 A♭\n"
          "  for two beats or more     11 F until the third sounds\n"
          "  substitutions             ♭5 G♭   ♭9 D♭   ♯9 D♯   ♭13 A♭\n"
          "  never                     7 B   ♭9 D♭   ♯9 D♯\n");
    CHECK(tones_text(harmony::read_chord("C7alt")) ==
          "C7alt\n"
          "  as written                1 C   3 E   ♭7 B♭   ♭9 D♭   ♯9 D♯   ♯11 F♯   ♭13 A♭\n"
          "  must sound                3 E   ♭7 B♭   one of ♭9 D♭, ♯9 D♯, ♯11 F♯, ♭13 A♭\n"
          "  never                     5 G   7 B   9 D   13 A\n");
    CHECK(tones_text(harmony::read_chord("Bbdim7/E")) ==
          "B♭dim7/E\n"
          "  as written                1 B♭   ♭3 D♭   ♭5 F♭   ♭♭7 A𝄫\n"
          "  in the bass               E\n"
          "  must sound                any three of 1 B♭   ♭3 D♭   ♭5 F♭   ♭♭7 A𝄫\n"
          "  never                     3 D   5 F\n");
    CHECK(tones_text(harmony::read_chord("Fm7")).find("6 D for the ♭7") != std::string::npos);
    CHECK(tones_text(harmony::read_chord("F7")).find("as I7 or IV7 of a blues   ♯9 G♯") !=
          std::string::npos);
}

TEST_CASE("no line about any chord is wider than a terminal", "[report]") {
    for (const auto& row : harmony::quality_table()) {
        for (const auto& root : {harmony::Spelling{harmony::Letter::G, -2},
                                 harmony::Spelling{harmony::Letter::D, 2}}) {
            std::istringstream text(tones_text({root, row.quality, {}, {}}));
            for (std::string line; std::getline(text, line);) {
                INFO(line);
                CHECK(report::columns_of(line) <= 80);
            }
        }
    }
}
