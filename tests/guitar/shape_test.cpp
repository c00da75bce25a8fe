#include "support/catch.hpp"

#include <compline/guitar/shape.hpp>
#include <compline/harmony/quality.hpp>

using namespace compline;
using guitar::Fretboard;
using guitar::Shape;

TEST_CASE("standard tuning has E2 on string 6 and E4 on string 1") {
    const auto board = Fretboard::standard();
    CHECK(board.note({6, 0}).number() == 40);
    CHECK(board.note({1, 0}).number() == 64);
    CHECK(board.note({3, 6}).number() == 61);  // C sharp
    CHECK(board.fret(5, harmony::MidiNote(48)) == 3);
    CHECK(!board.fret(1, harmony::MidiNote(60)).has_value());
}

TEST_CASE("a shape is written from string 6 to string 1") {
    Shape shape;
    shape.frets = {std::nullopt, 6, 5, std::nullopt, 5, std::nullopt};
    CHECK(shape.text() == "x5x56x");
    shape.frets = {std::nullopt, std::nullopt, 11, 12, 10, std::nullopt};
    CHECK(shape.text() == "x-10-12-11-x-x");
}

TEST_CASE("a shell holds the root in the bass and every defining tone, in four frets") {
    const auto board = Fretboard::standard();
    for (const auto& row : harmony::quality_table()) {
        for (int letter = 0; letter < 7; ++letter) {
            for (int accidental = -1; accidental <= 1; ++accidental) {
                for (const int near_fret : {1, 3, 5, 8}) {
                    const harmony::Chord chord{
                        {static_cast<harmony::Letter>(letter), accidental}, row.quality, {}, {}};
                    const auto shape = guitar::shell(board, chord, near_fret);
                    const auto places = shape.places();
                    harmony::PitchClasses sounding;
                    int low = 99;
                    int high = 0;
                    for (const auto& place : places) {
                        sounding.set(static_cast<std::size_t>(board.note(place).pitch_class()));
                        low = std::min(low, place.fret);
                        high = std::max(high, place.fret);
                    }
                    INFO(chord.symbol() << " " << shape.text());
                    CHECK(board.note(places.front()).pitch_class() == chord.root.pitch_class());
                    CHECK(high - low <= 3);
                    const harmony::Palette palette(chord, {}, harmony::Strictness::working);
                    CHECK(palette.foreign(sounding).none());
                    CHECK(palette.missing(sounding).empty());
                }
            }
        }
    }
}
