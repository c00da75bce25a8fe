#include "support/catch.hpp"

#include <compline/harmony/chord.hpp>
#include <compline/harmony/quality.hpp>
#include <compline/text/bad_input.hpp>

#include <array>
#include <set>
#include <string>
#include <vector>

using namespace compline::harmony;

namespace {

const std::array<const char*, 12> roots = {"C",  "Db", "D",  "Eb", "E",  "F",
                                           "F#", "G",  "Ab", "A",  "Bb", "B"};

// Spelled here once more, in semitones, so that nothing of the reader's tables is asked.
struct Shape {
    const char* symbol;
    std::vector<int> semitones;
};
const std::vector<Shape> triads = {
    {"", {0, 4, 7}}, {"m", {0, 3, 7}}, {"dim", {0, 3, 6}}, {"aug", {0, 4, 8}}};
const std::vector<Shape> sevenths = {
    {"7", {0, 4, 7, 10}}, {"m7", {0, 3, 7, 10}}, {"maj7", {0, 4, 7, 11}}};

/// The canonical symbol; empty where it is refused.
std::string read_as(const std::string& symbol) {
    try {
        return read_chord(symbol).symbol(Accidentals::letters);
    } catch (const compline::text::BadInput&) {
        return "";
    }
}

std::string refusal(const std::string& symbol) {
    try {
        (void)read_chord(symbol);
    } catch (const compline::text::BadInput& error) {
        return error.expected();
    }
    return "";
}

std::set<int> sound_of(const std::string& symbol) {
    const Chord chord = read_chord(symbol);
    std::set<int> sound;
    for (const auto& tone : chord_tones(chord)) {
        sound.insert((chord.root.pitch_class() + tone.pitch_class()) % 12);
    }
    return sound;
}

std::set<int> sound_of(const Shape& shape, int root) {
    std::set<int> sound;
    for (const int semitones : shape.semitones) sound.insert((root + semitones) % 12);
    return sound;
}

}  // namespace

TEST_CASE("a major triad over a dominant is the chord that arrangers mean by it") {
    // Upper structures of any arranging primer, from memory; on C7 from C upwards. Those with the
    // fourth or the major seventh in them are none.
    const std::array<const char*, 12> meant = {"C7",      "", "C13#11",  "C7#9",  "", "",
                                               "C7b9#11", "", "C7#9b13", "C13b9", "", ""};
    for (std::size_t i = 0; i < roots.size(); ++i) {
        INFO(roots[i]);
        CHECK(read_as(std::string(roots[i]) + "/C7") == meant[i]);
    }
    CHECK(read_as("Gb/C7") == "C7b9#11");
    CHECK(read_as("E♭/B♭7") == "");
    CHECK(read_as("C/Bb7") == "Bb13#11");
    CHECK(read_as("F#m/C7") == "C13b9#11");
    CHECK(read_as("Gm/C7") == "C9");
    CHECK(read_as("Am/C7") == "C7add13");
    CHECK(read_as("D/C9") == "C13#11");
    CHECK(read_as("Bb/C7sus4") == "C9sus4");
    CHECK(read_as("Eb/C7b9") == "C7b9#9");
}

TEST_CASE("a major triad over a minor or a major seventh is the chord that arrangers mean by it") {
    CHECK(read_as("Bb/Cm7") == "Cm11");
    CHECK(read_as("Gm/Cm7") == "Cm9");
    CHECK(read_as("F/Cm7") == "Cm7add11add13");
    CHECK(read_as("Eb/Cm7") == "Cm7");
    CHECK(read_as("C/Cm7") == "");
    CHECK(read_as("G/Cmaj7") == "Cmaj9");
    CHECK(read_as("D/Cmaj7") == "Cmaj13#11");
    CHECK(read_as("Bm/Cmaj7") == "Cmaj9#11");
    CHECK(read_as("B/Cmaj7") == "Cmaj7#9#11");
    CHECK(read_as("Bb/Cmaj7") == "");
}

TEST_CASE("what is read for a triad over a seventh chord has the tones of both and no other") {
    int read = 0;
    int refused = 0;
    for (const auto& lower : sevenths) {
        for (int below = 0; below < 12; ++below) {
            for (const auto& upper : triads) {
                for (int above = 0; above < 12; ++above) {
                    const auto symbol = std::string(roots[static_cast<std::size_t>(above)]) +
                                        upper.symbol + "/" +
                                        roots[static_cast<std::size_t>(below)] + lower.symbol;
                    const auto chord = read_as(symbol);
                    ++(chord.empty() ? refused : read);
                    if (chord.empty()) continue;
                    auto both = sound_of(lower, below);
                    both.merge(sound_of(upper, above));
                    INFO(symbol << " is read as " << chord);
                    CHECK(sound_of(symbol) == both);
                    CHECK(sound_of(chord) == both);
                }
            }
        }
    }
    // Of 12 roots each the same.
    CHECK(read % 12 == 0);
    CHECK(read + refused == 3 * 12 * 4 * 12);
    CHECK(read > refused);
}

TEST_CASE("two chords at once that make none are refused with what to write") {
    CHECK(refusal("F/C7") ==
          "F over C7 makes no chord that can be said: write the one that is meant, or F/C for F "
          "with C in the bass");
    const auto two = refusal("Am7/D7");
    CHECK(two.find("such as D/C7") != std::string::npos);
    CHECK(two.find("have a blank between them") != std::string::npos);
    CHECK(refusal("D/Cm6") == two);
    CHECK(refusal("C/Ex") == "nothing may follow the bass note, but \"x\" does");
    CHECK(refusal("C/E/G") == "nothing may follow the bass note, but \"/G\" does");
    CHECK(read_as("D/C") == "D/C");
}
