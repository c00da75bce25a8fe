#include "support/catch.hpp"

#include <compline/harmony/chord.hpp>
#include <compline/harmony/quality.hpp>

#include <string>
#include <vector>

using namespace compline::harmony;

namespace {

std::string notes_of(const char* symbol) {
    const Chord chord = read_chord(symbol);
    std::string notes;
    for (const auto& degree : chord_tones(chord)) {
        notes += (notes.empty() ? "" : " ") + spell(chord.root, degree).name();
    }
    return notes;
}

std::size_t error_place(const std::string& symbol) {
    try {
        (void)read_chord(symbol);
    } catch (const ChordError& error) {
        return error.position();
    }
    return std::string::npos;
}

}  // namespace

TEST_CASE("a chord's tones are spelled as a musician writes them") {
    // Values from memory of any harmony primer.
    CHECK(notes_of("C7") == "C E G B♭");
    CHECK(notes_of("F#7") == "F♯ A♯ C♯ E");
    CHECK(notes_of("Bbm7b5") == "B♭ D♭ F♭ A♭");
    CHECK(notes_of("E♭maj7") == "E♭ G B♭ D");
    CHECK(notes_of("G#dim7") == "G♯ B D F");
    CHECK(notes_of("Cdim7") == "C E♭ G♭ B♭♭");
    CHECK(notes_of("C#aug") == "C♯ E♯ G♯♯");
    CHECK(notes_of("Ab13") == "A♭ C E♭ G♭ B♭ F");
    CHECK(notes_of("D6/9") == "D F♯ A B E");
    CHECK(notes_of("B7b9") == "B D♯ F♯ A C");
    CHECK(notes_of("Gb7sus4") == "G♭ C♭ D♭ F♭");
}

TEST_CASE("every spelling of a quality prints one canonical symbol") {
    for (const auto& row : quality_table()) {
        std::string spellings(row.spellings);
        for (const char* root : {"C", "F#", "Bb", "E♭♭"}) {
            std::string rest = std::string(row.symbol) + " " + spellings;
            for (std::size_t at = 0; at <= rest.size();) {
                const auto end = std::min(rest.find(' ', at), rest.size());
                const Chord chord = read_chord(root + rest.substr(at, end - at));
                CHECK(chord.quality == row.quality);
                CHECK(read_chord(chord.symbol()) == chord);
                CHECK(read_chord(chord.symbol(Accidentals::letters)) == chord);
                at = end + 1;
                if (spellings.empty() && at >= rest.size()) break;
            }
        }
    }
    CHECK(read_chord("Bb-7b5").symbol() == "B♭m7♭5");
    CHECK(read_chord("Bb-7b5").symbol(Accidentals::letters) == "Bbm7b5");
}

TEST_CASE("a slash names the bass and never clashes with 6/9") {
    CHECK(read_chord("C6/9").quality == Quality::six_nine);
    CHECK(!read_chord("C6/9").bass.has_value());
    CHECK(read_chord("C6/9/E").bass->name() == "E");
    CHECK(read_chord("C7/Bb").bass->name() == "B♭");
    CHECK(read_chord("C/E").symbol() == "C/E");
    CHECK(read_chord("C6/E").quality == Quality::sixth);
}

TEST_CASE("a wrong symbol says at which character it goes wrong") {
    CHECK(error_place("H7") == 0);
    CHECK(error_place("") == 0);
    CHECK(error_place("Cmaj7x") == 5);
    CHECK(error_place("Dm7b6") == 4);
    CHECK(error_place("C7/") == 3);
    CHECK(error_place("C7/H") == 3);
    CHECK(error_place("C7/Ex") == 4);
    CHECK(error_place("B♭q") == 4);
    CHECK(error_place("c7") == 0);
}

TEST_CASE("what a slash or a flat stands for does not depend on the sign it is written with") {
    CHECK(read_chord("E♭7♭9") == read_chord("Eb7b9"));
    CHECK(read_chord("F♯m7♭5") == read_chord("F#m7b5"));
    CHECK(read_chord("C−7") == read_chord("Cm7"));
    CHECK(read_chord("CΔ") == read_chord("Cmaj7"));
}

TEST_CASE("dominants and minor chords are known as such") {
    CHECK(is_dominant(Quality::dominant_seventh));
    CHECK(is_dominant(Quality::dominant_sharp_five));
    CHECK(is_dominant(Quality::dominant_suspended));
    CHECK(!is_dominant(Quality::minor_seventh));
    CHECK(!is_dominant(Quality::half_diminished));
    CHECK(!is_dominant(Quality::major_seventh));
    CHECK(is_minor(Quality::minor_sixth));
    CHECK(!is_minor(Quality::half_diminished));
}
