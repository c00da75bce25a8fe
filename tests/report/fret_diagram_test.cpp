// Grips drawn as books draw them.

#include "support/catch.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/fret_diagram.hpp>

#include <string>
#include <vector>

using namespace compline;
using guitar::Finger;
using guitar::Grip;

namespace {

using Lines = std::vector<std::string>;

Finger finger_of(char name) {
    switch (name) {
        case '1':
            return Finger::index;
        case '2':
            return Finger::middle;
        case '3':
            return Finger::ring;
        case '4':
            return Finger::little;
        case 'T':
            return Finger::thumb;
        default:
            return Finger::none;
    }
}

/// Frets from the lowest string on, -1 is muted; fingers as Grip::finger_text() writes them.
Grip grip(const std::vector<int>& frets, const std::string& fingers) {
    std::vector<std::optional<int>> shape;
    for (const int fret : frets) {
        shape.push_back(fret < 0 ? std::nullopt : std::optional<int>(fret));
    }
    Grip made{guitar::Shape::of(shape), {}};
    for (std::size_t i = 0; i < fingers.size(); ++i) {
        made.fingers.at(fingers.size() - 1 - i) = finger_of(fingers[i]);
    }
    return made;
}

constexpr int x = -1;

Lines drawn(const std::vector<int>& frets, const std::string& fingers) {
    return report::fret_diagram(grip(frets, fingers), 5);
}

}  // namespace

TEST_CASE("a grip is drawn upright with its fingers, its first fret's number at the side",
          "[report]") {
    CHECK(drawn({x, 5, x, 5, 6, x}, "x1x23x") == Lines{"   x   x     x",  //
                                                       "   ┌─┬─┬─┬─┬─┐",  //
                                                       " 5 │ 1 │ 2 │ │",  //
                                                       "   │ │ │ │ 3 │",  //
                                                       "   │ │ │ │ │ │",  //
                                                       "   │ │ │ │ │ │",  //
                                                       "   │ │ │ │ │ │"});
}

TEST_CASE("a grip by the nut hangs from it, open strings with an o", "[report]") {
    CHECK(drawn({x, 0, 2, 0, 1, 3}, "x02013") == Lines{"   x o   o    ",  //
                                                       "   ╒═╤═╤═╤═╤═╕",  //
                                                       "   │ │ │ │ 1 │",  //
                                                       "   │ │ 2 │ │ │",  //
                                                       "   │ │ │ │ │ 3",  //
                                                       "   │ │ │ │ │ │",  //
                                                       "   │ │ │ │ │ │"});
    CHECK(drawn({0, 0, 0, 0, 0, 0}, "000000")[0] == "   o o o o o o");
}

TEST_CASE("a finger across strings is one bar, through strings that others press higher up",
          "[report]") {
    const auto lines = drawn({8, 10, 8, 9, 8, 8}, "131211");
    CHECK(lines[2] == " 8 1━┿━1━┿━1━1");
    CHECK(lines[3] == "   │ │ │ 2 │ │");
    CHECK(lines[4] == "   │ 3 │ │ │ │");
    CHECK(drawn({x, x, 7, 7, 7, x}, "xx111x")[2] == " 7 │ │ 1━1━1 │");
}

TEST_CASE("two fingers on one fret are not joined", "[report]") {
    CHECK(drawn({x, x, 7, 8, 7, x}, "xx132x")[2] == " 7 │ │ 1 │ 2 │");
}

TEST_CASE("high frets have two digits, and the diagram its width", "[report]") {
    const auto lines = drawn({x, 10, 12, 11, x, x}, "x132xx");
    CHECK(lines[2] == "10 │ 1 │ │ │ │");
    CHECK(lines[4] == "   │ │ 3 │ │ │");
}

TEST_CASE("a grip wider than the frets asked for has as many as it needs", "[report]") {
    const auto lines = report::fret_diagram(grip({x, 5, x, 8, 9, x}, "x1x34x"), 4);
    CHECK(lines.size() == 7);
    CHECK(lines.back() == "   │ │ │ │ 4 │");
    CHECK(report::fret_diagram(grip({x, 5, x, 7, 8, x}, "x1x34x"), 4).size() == 6);
}

TEST_CASE("a left-handed player's diagram is the mirror image", "[report]") {
    const auto lines =
        report::fret_diagram(grip({x, 5, x, 5, 6, x}, "x1x23x"), 4, report::Hand::left);
    CHECK(lines[0] == "   x     x   x");
    CHECK(lines[2] == " 5 │ │ 2 │ 1 │");
}

TEST_CASE("a shape without fingers has dots, a thumb is a T", "[report]") {
    CHECK(drawn({5, x, 5, 6, x, x}, "")[2] == " 5 ● │ ● │ │ │");
    CHECK(drawn({5, x, 5, 6, x, x}, "Tx12xx")[2] == " 5 T │ 1 │ │ │");
}

TEST_CASE("a diagram has its height and width whatever the grip and the guitar", "[report]") {
    for (int strings = 4; strings <= 8; ++strings) {
        for (int low = 0; low < 20; ++low) {
            for (int wide = 0; wide < 5; ++wide) {
                std::vector<int> frets(static_cast<std::size_t>(strings), x);
                frets.front() = low;
                frets.back() = low + wide;
                const auto lines = drawn(frets, "");
                bool good = lines.size() == 7;
                for (const auto& line : lines) {
                    good =
                        good && report::columns_of(line) == report::fret_diagram_columns(strings);
                }
                CHECK(good);
            }
        }
    }
}
