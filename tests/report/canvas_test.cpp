// Letters in pixels, and the characters of a terminal that they become.

#include "../../src/report/canvas.hpp"

#include "report/rows.hpp"
#include "support/catch.hpp"

#include <map>

using namespace compline;
using namespace compline::tests;
using report::Canvas;

TEST_CASE("a pixel is a column wide and half a line high", "[report]") {
    Canvas canvas(4, 2);
    canvas.fill(0, 0, 1, 1);
    canvas.fill(1, 1, 1, 1);
    canvas.fill(2, 0, 1, 2);
    canvas.fill(1, 2, 2, 1);
    CHECK(canvas.drawn() == Lines{"▀▄█", " ▀▀"});
}

TEST_CASE("a letter is drawn at its size and at twice it, from wherever it begins", "[report]") {
    Canvas canvas(18, 8);
    CHECK(canvas.draw("E♭", 0, 0, {}) == 10);
    CHECK(canvas.draw("1", 12, 1, {2, 2}) == 18);
    CHECK(canvas.drawn() == Lines{"█▀▀▀▀ █       ▄▄", "█▄▄▄  █▄▀▄  ▄▄██", "█     █ ▄▀  ▀▀██",
                                  "▀▀▀▀▀ ▀▀      ██", "              ██", "              ██",
                                  "            ▄▄██▄▄", "            ▀▀▀▀▀▀"});
}

TEST_CASE("what does not fit is left out, and nothing else is touched", "[report]") {
    Canvas canvas(3, 2);
    canvas.draw("F", -2, 0, {});
    canvas.draw("F", 2, 2, {});
    canvas.fill(-5, -5, 6, 7);
    canvas.write("xyz", 2, 1);
    canvas.write("above", 0, -1);
    canvas.write("below", 0, 2);
    CHECK(canvas.drawn() == Lines{"█▀▀", "▄▄x"});
}

TEST_CASE("text stands as it is among the pixels, and goes again", "[report]") {
    Canvas canvas(8, 1);
    canvas.fill(0, 0, 8, 2);
    canvas.write("│ B𝄫", 2, 0);
    CHECK(canvas.drawn() == Lines{"██│ B𝄫██"});
    canvas.unwrite(2, 0);
    CHECK(canvas.drawn() == Lines{"███ B𝄫██"});
}

TEST_CASE("no two letters look alike, and all are of one height", "[report]") {
    std::map<std::string, std::string> seen;
    for (const std::string letters :
         {"ABCDEFGHIJKLMNOPQRSTUVWXYZ", "abcdefghijklmnopqrstuvwxyz", "0123456789", "/()+-.,"}) {
        for (const char letter : letters) {
            const std::string text(1, letter);
            REQUIRE(report::has_glyphs(text));
            Canvas canvas(8, 5);
            canvas.draw(text, 0, 0, {});
            std::string drawn;
            for (const auto& line : canvas.drawn()) drawn += line + "\n";
            CHECK(canvas.drawn().back().empty());  // nothing hangs below
            INFO(text << " looks like " << seen[drawn] << "\n" << drawn);
            // The capital I and the figure 1 alone are near; O and 0 are the same to a reader.
            CHECK((seen[drawn].empty() || (text == "0" && seen[drawn] == "O")));
            seen[drawn] = text;
        }
    }
    CHECK_FALSE(report::has_glyphs("Réfrain"));
}
