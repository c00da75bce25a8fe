// A chord symbol as large as it goes.

#include "../../src/report/large_chord.hpp"

#include "support/catch.hpp"
#include "support/every_chord.hpp"

using namespace compline;
using report::large_chord;
using report::LargeChord;
using report::size_of;

namespace {

LargeChord symbol(const char* text) { return large_chord(harmony::read_chord(text)); }

std::string whole(const LargeChord& chord) { return chord.root + chord.suffix + chord.bass; }

}  // namespace

TEST_CASE("a chord symbol is read as its root, what it is, and its bass", "[report]") {
    CHECK(symbol("Bb7/D") == LargeChord{"B♭", "7", "/D"});
    CHECK(symbol("G7b9b13") == LargeChord{"G", "7♭9♭13", ""});
    CHECK(symbol("F") == LargeChord{"F", "", ""});
    CHECK(symbol("C6/9") == LargeChord{"C", "6/9", ""});
    CHECK(symbol("Asus4/E") == LargeChord{"A", "sus4", "/E"});
    CHECK(large_chord(std::nullopt) == LargeChord{"N.C.", "", ""});
}

TEST_CASE("what is long elsewhere is a sign: major seventh, half-diminished, diminished",
          "[report]") {
    CHECK(whole(symbol("Cmaj7")) == "C△7");
    CHECK(whole(symbol("Abmaj7#11")) == "A♭△7♯11");
    CHECK(whole(symbol("F#m7b5/E")) == "F♯ø7/E");
    CHECK(whole(symbol("Bm11b5")) == "Bø11");
    CHECK(whole(symbol("C#dim7")) == "C♯°7");
    CHECK(whole(symbol("Bdim")) == "B°");
    CHECK(whole(symbol("Em(maj7)")) == "Em△7");
    CHECK(whole(symbol("Cdim(maj7)")) == "C°△7");
    CHECK(whole(symbol("Cm7")) == "Cm7");
    CHECK(whole(symbol("C7(no3)")) == "C7(no3)");
}

TEST_CASE("every chord has its letters, and fits where it is said to fit", "[report]") {
    int chords = 0;
    tests::each_chord_to(2, [&](harmony::Chord chord, std::size_t set) {
        chord.root = set % 2 == 0 ? harmony::Spelling{harmony::Letter::F, 1}
                                  : harmony::Spelling{harmony::Letter::B, -2};
        if (set % 3 == 0) chord.bass = harmony::Spelling{harmony::Letter::A, -1};
        const auto large = large_chord(chord);
        bool good = report::has_glyphs(whole(large));
        for (const int columns : {40, 80, 200}) {
            const auto size = size_of(large, columns, 42);
            if (!size) continue;
            good = good && pixels_across(large, *size) <= columns && size->rows() <= 42;
            good = good && size->root.across >= size->rest.across;
            good = good && size->root.across <= 2 * size->rest.across;
        }
        good = good && size_of(large, 130, 42).has_value();
        if (!good) UNSCOPED_INFO(whole(large));
        CHECK(good);
        ++chords;
    });
    CHECK(chords > 100);
}

TEST_CASE("a symbol is drawn as large as there is room, the root first, and not larger",
          "[report]") {
    const auto chord = symbol("Cm7");  // 5, and 1 and 5 and 1 and 5 pixels across
    CHECK_FALSE(size_of(chord, 16, 42));
    CHECK_FALSE(size_of(chord, 80, 6));
    const auto size = [&](int columns, int rows) {
        const auto found = size_of(chord, columns, rows);
        return std::vector{found->root.across, found->root.down, found->rest.across,
                           found->rest.down};
    };
    CHECK(size(17, 7) == std::vector{1, 1, 1, 1});
    CHECK(size(17, 14) == std::vector{1, 2, 1, 2});
    CHECK(size(22, 14) == std::vector{2, 2, 1, 1});
    CHECK(size(34, 14) == std::vector{2, 2, 2, 2});
    CHECK(size(34, 100) == std::vector{2, 3, 2, 3});
    CHECK(size(200, 21) == std::vector{3, 3, 3, 3});
    CHECK(size(55, 28) == std::vector{3, 4, 3, 4});
    CHECK(size(56, 28) == std::vector{4, 4, 3, 3});
}

TEST_CASE("a suffix smaller than its root hangs high, a bass stands low", "[report]") {
    report::Canvas canvas(30, 7);
    const report::ChordSize size{{2, 2}, {1, 1}};
    draw(canvas, {"F", "7", "/A"}, size, 0, 0);
    const auto drawn = canvas.drawn();
    CHECK(drawn[0] == "██████████ ▀▀▀▀█");
    CHECK(drawn[3] == "████████    ▀        ▄  ▄▄▄");
    CHECK(drawn[6] == "██               ▄▀    █   █");
}
