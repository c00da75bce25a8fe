#include "support/catch.hpp"

#include <compline/harmony/pitch.hpp>

using namespace compline::harmony;

TEST_CASE("A4 is 440 Hz and twelve semitones double it") {
    // ISO 16:1975, and equal temperament.
    CHECK(MidiNote(69).hz() == Approx(440.0));
    CHECK(MidiNote(81).hz() == Approx(880.0));
    CHECK(MidiNote(40).hz() == Approx(82.4069).margin(1e-4));  // low E of the guitar
}

TEST_CASE("a note's octave belongs to its letter") {
    CHECK(note_name(MidiNote(60), {Letter::C, 0}) == "C4");
    CHECK(note_name(MidiNote(60), {Letter::B, 1}) == "B♯3");
    CHECK(note_name(MidiNote(59), {Letter::C, -1}) == "C♭4");
    CHECK(note_name(MidiNote(61), {Letter::C, 1}, Accidentals::letters) == "C#4");
    CHECK(note_name(MidiNote(0), {Letter::C, 0}) == "C-1");
}

TEST_CASE("spelling a degree keeps its letter and its sound, for every root") {
    for (int letter = 0; letter < 7; ++letter) {
        for (int accidental = -1; accidental <= 1; ++accidental) {
            const Spelling root{static_cast<Letter>(letter), accidental};
            for (int number = 1; number <= 13; ++number) {
                for (int alteration = -1; alteration <= 1; ++alteration) {
                    const Degree degree{number, alteration};
                    const Spelling tone = spell(root, degree);
                    CHECK(static_cast<int>(tone.letter) == (letter + number - 1) % 7);
                    CHECK(tone.pitch_class() == (root.pitch_class() + degree.pitch_class()) % 12);
                }
            }
        }
    }
}

TEST_CASE("note names are read with either kind of accidental") {
    std::size_t length = 0;
    CHECK(read_spelling("Bb7", length) == Spelling{Letter::B, -1});
    CHECK(length == 2);
    CHECK(read_spelling("F♯", length) == Spelling{Letter::F, 1});
    CHECK(read_spelling("G𝄪", length) == Spelling{Letter::G, 2});
    CHECK(read_spelling("Ebb", length) == Spelling{Letter::E, -2});
    CHECK(read_spelling("Ebbb", length) == Spelling{Letter::E, -2});
    CHECK(length == 3);
    CHECK(!read_spelling("h", length).has_value());
}
