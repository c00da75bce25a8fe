#include "support/catch.hpp"

#include <compline/listen/strum.hpp>

using namespace compline;
using listen::Note;

namespace {

Note note(double on_ms, int string, double length_ms = 400) {
    Note n;
    n.on = time::from_milliseconds(on_ms);
    n.off = n.on + time::from_milliseconds(length_ms);
    n.string = string;
    n.note = harmony::MidiNote(70 - 5 * string);
    return n;
}

std::vector<std::size_t> sizes(const std::vector<Note>& notes) {
    std::vector<std::size_t> counts;
    for (const auto& strum : listen::group_strums(notes)) counts.push_back(strum.notes.size());
    return counts;
}

using Sizes = std::vector<std::size_t>;

}  // namespace

TEST_CASE("notes within 60 ms of the first are one strum") {
    CHECK(sizes({note(0, 5), note(20, 2), note(60, 4)}) == Sizes{3});
    CHECK(sizes({note(0, 5), note(20, 2), note(61, 4)}) == Sizes{2, 1});
}

TEST_CASE("a rake in string order may take up to 120 ms") {
    CHECK(sizes({note(0, 5), note(40, 4), note(80, 3), note(120, 2)}) == Sizes{4});
    CHECK(sizes({note(0, 2), note(40, 3), note(80, 4), note(120, 5)}) == Sizes{4});
    CHECK(sizes({note(0, 5), note(40, 3), note(80, 4)}) == Sizes{2, 1});
    CHECK(sizes({note(0, 5), note(40, 4), note(80, 3), note(121, 2)}) == Sizes{3, 1});
    // A bass note, and a chord after it, is no rake.
    CHECK(sizes({note(0, 6), note(100, 4), note(103, 3)}) == Sizes{1, 2});
}

TEST_CASE("a second note on one string starts a new strum") {
    CHECK(sizes({note(0, 5), note(5, 4), note(30, 5)}) == Sizes{2, 1});
}

TEST_CASE("a finger that slides while the others are struck belongs to their strum") {
    auto guide = note(-4, 4);
    guide.slid = true;
    CHECK(sizes({guide, note(0, 5), note(5, 3)}) == Sizes{3});
}

TEST_CASE("an arpeggio is a chord spread over time") {
    CHECK(sizes({note(0, 5, 900), note(150, 4, 800), note(300, 3, 700), note(450, 2, 600)}) ==
          Sizes{4});
    CHECK(sizes({note(0, 2, 900), note(120, 3, 800), note(260, 4, 700)}) == Sizes{3});
    // A line: no note rings into the next but one.
    CHECK(sizes({note(0, 5, 160), note(150, 4, 160), note(300, 3, 160)}) == Sizes{1, 1, 1});
    // Not in the order of strings, too slow, uneven, or two notes only.
    CHECK(sizes({note(0, 5, 900), note(150, 3, 800), note(300, 4, 700)}) == Sizes{1, 1, 1});
    CHECK(sizes({note(0, 5, 999), note(300, 4, 999), note(600, 3, 999)}) == Sizes{1, 1, 1});
    CHECK(sizes({note(0, 5, 900), note(70, 4, 900), note(300, 3, 900)}) == Sizes{1, 1, 1});
    CHECK(sizes({note(0, 5, 900), note(150, 4, 900)}) == Sizes{1, 1});
    // A bass note, and a chord after it.
    CHECK(sizes({note(0, 5, 900), note(150, 4, 900), note(153, 3, 900)}) == Sizes{1, 2});
}

TEST_CASE("a dead strum is short on every string") {
    const auto dead = listen::group_strums(std::vector{note(0, 5, 50), note(10, 4, 40)});
    CHECK(dead.front().is_chunk());
    const auto rings = listen::group_strums(std::vector{note(0, 5, 50), note(10, 4, 200)});
    CHECK(!rings.front().is_chunk());
    const auto single = listen::group_strums(std::vector{note(0, 3, 50)});
    CHECK(!single.front().is_chunk());
}

TEST_CASE("a single note on string 6 or 5 is bass, on the others a fill") {
    CHECK(listen::group_strums(std::vector{note(0, 6)}).front().is_bass());
    CHECK(listen::group_strums(std::vector{note(0, 5)}).front().is_bass());
    CHECK(!listen::group_strums(std::vector{note(0, 4)}).front().is_bass());
    CHECK(!listen::group_strums(std::vector{note(0, 6), note(5, 5)}).front().is_bass());
}
