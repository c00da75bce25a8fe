#include "support/catch.hpp"

#include <compline/guitar/fretboard.hpp>
#include <compline/text/bad_input.hpp>

using namespace compline;
using guitar::Fretboard;
using guitar::read_tuning;

// Note numbers of MIDI 1.0 with 60 as C4, pitches of the standard tuning: common knowledge.
TEST_CASE("a tuning is read from the lowest string on", "[guitar]") {
    const auto standard = read_tuning("E2 A2 D3 G3 B3 E4");
    const auto usual = Fretboard::standard();
    REQUIRE(standard.size() == 6);
    for (int string = 1; string <= 6; ++string) {
        CHECK(standard[static_cast<std::size_t>(string - 1)] == usual.open(string));
    }
    CHECK(read_tuning("B1 E2 A2 D3 G3 B3 E4").back().number() == 35);
    CHECK(read_tuning("G4 C4 E4 A4").back().number() == 67);  // the lowest string is not the lowest
    CHECK(read_tuning("Eb2 Ab2 Db3 Gb3 Bb3 E♭4").front().number() == 63);
    CHECK(read_tuning("Cb3 F2 A2 D3").back().number() == 47);  // the octave is the letter's
}

TEST_CASE("what is no tuning is refused with its reason", "[guitar]") {
    CHECK_THROWS_AS(read_tuning("E2 A2 D3"), text::BadInput);
    CHECK_THROWS_AS(read_tuning("E2 A2 D3 G3 B3 E4 A4 D5 G5"), text::BadInput);
    CHECK_THROWS_AS(read_tuning("E A D G B E"), text::BadInput);
    CHECK_THROWS_AS(read_tuning("E2 A2 H3 G3"), text::BadInput);
    CHECK_THROWS_AS(read_tuning(""), text::BadInput);
}

TEST_CASE("with a capo frets count from it, and there are fewer", "[guitar]") {
    const Fretboard neck(read_tuning("E2 A2 D3 G3 B3 E4"), 22, 3);
    CHECK(neck.note({6, 0}).number() == 43);
    CHECK(neck.note({6, 2}).number() == 45);
    CHECK(neck.frets() == 19);
    CHECK(neck.fret(6, harmony::MidiNote(43)) == 0);
    CHECK_FALSE(neck.fret(6, harmony::MidiNote(42)));
    CHECK_FALSE(neck.fret(6, harmony::MidiNote(40 + 23)));
}
