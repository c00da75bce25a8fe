#include "support/catch.hpp"

#include <compline/harmony/transpose.hpp>

#include <string>
#include <vector>

using namespace compline;
using harmony::Interval;
using harmony::Spelling;

namespace {

Spelling note(const std::string& name) {
    std::size_t length = 0;
    return harmony::read_spelling(name, length).value();
}

/// A chord as it comes out, in plain letters.
std::string moved(const std::string& symbol, const std::string& from, const std::string& to,
                  int sharps) {
    const auto interval = harmony::interval_between(note(from), note(to));
    return harmony::transposed(harmony::read_chord(symbol), harmony::fifths_of(interval), sharps)
        .symbol(harmony::Accidentals::letters);
}

}  // namespace

TEST_CASE("an interval is letters and semitones, the nearer way") {
    CHECK(harmony::interval_between(note("C"), note("D")) == Interval{1, 2});
    CHECK(harmony::interval_between(note("F"), note("Ab")) == Interval{2, 3});
    CHECK(harmony::interval_between(note("C"), note("A")) == Interval{-2, -3});
    CHECK(harmony::interval_between(note("C"), note("G")) == Interval{-3, -5});
    CHECK(harmony::interval_between(note("C"), note("F#")) == Interval{3, 6});
    CHECK(harmony::interval_between(note("C"), note("Gb")) == Interval{4, 6});
    CHECK(harmony::interval_between(note("C#"), note("Db")) == Interval{1, 0});
    CHECK(harmony::interval_between(note("Bb"), note("B")) == Interval{0, 1});
}

TEST_CASE("every note has a place of its own in the row of fifths") {
    CHECK(harmony::place_in_fifths(note("F")) == -1);
    CHECK(harmony::place_in_fifths(note("Gb")) == -6);
    CHECK(harmony::place_in_fifths(note("F#")) == 6);
    for (int place = -20; place <= 20; ++place) {
        const auto spelling = harmony::spelling_at(place);
        CHECK(harmony::place_in_fifths(spelling) == place);
        CHECK(spelling.pitch_class() == ((place * 7) % 12 + 12) % 12);
    }
}

TEST_CASE("an interval goes as far along the fifths as from its one note to the other") {
    for (int from = -8; from <= 12; ++from) {
        for (int to = -8; to <= 12; ++to) {
            const auto interval =
                harmony::interval_between(harmony::spelling_at(from), harmony::spelling_at(to));
            CHECK(harmony::fifths_of(interval) == to - from);
            CHECK(interval.semitones > -6);
            CHECK(interval.semitones <= 6);
        }
    }
}

TEST_CASE("a chord keeps its place in the key, and what its symbol names") {
    CHECK(moved("Gm7", "F", "Ab", -4) == "Bbm7");
    CHECK(moved("C7b9", "F", "Ab", -4) == "Eb7b9");
    CHECK(moved("F#dim7", "F", "G", 1) == "G#dim7");
    CHECK(moved("Bbm7/Ab", "F", "D", 2) == "Gm7/F");
    CHECK(moved("D7", "C", "B", 5) == "C#7");
}

TEST_CASE("no root or bass has two sharps or flats, and C flat is only where the key has it") {
    CHECK(moved("Db7", "C", "Gb", -6) == "G7");      // A double flat
    CHECK(moved("D#dim7", "C", "E", 4) == "Gdim7");  // F double sharp
    CHECK(moved("F6", "C", "Gb", -6) == "Cb6");
    CHECK(moved("Fb7", "F#", "Gb", -6) == "E7");  // three flats
    CHECK(moved("Bb7", "C", "Db", -5) == "B7");   // C flat, which D flat has not
    CHECK(moved("Bb7", "C", "Gb", -6) == "E7");   // F flat
    CHECK(moved("Bdim7", "C", "F#", 6) == "E#dim7");
    CHECK(moved("F#m7b5", "C", "B", 5) == "Fm7b5");   // E sharp, which B has not
    CHECK(moved("F#dim7", "C", "F#", 6) == "Cdim7");  // B sharp
}

TEST_CASE("a bass is read from its root, and keeps its interval from it") {
    CHECK(moved("D7/F#", "C", "B", 5) == "C#7/E#");
    CHECK(moved("Fm/Ab", "C", "Ab", -4) == "Dbm/Fb");
    CHECK(moved("Db7/F", "C", "Gb", -6) == "G7/B");
    CHECK(moved("C/Eb", "C", "Gb", -6) == "Gb/A");  // B double flat
}
