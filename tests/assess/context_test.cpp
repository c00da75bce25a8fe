#include "support/catch.hpp"
#include "support/comper.hpp"

#include <string>

using namespace compline;
using assess::Tones;
using tests::Comper;

// What a tune makes of a chord: the same grip is right in one place and wrong in another.

namespace {

/// A grip on the first beat of a bar, nothing else played.
Tones tones_of(const std::string& bars, int bar, const std::string& grip, const std::string& key) {
    Comper comper(bars, 120, key);
    comper.strum(bar, 1, grip);
    for (const auto& change : comper.judged().changes) {
        if (change.bar == bar && change.beat == time::BeatOfBar(1)) return change.tones;
    }
    return Tones::none;
}

bool is_right(const std::string& bars, int bar, const std::string& grip,
              const std::string& key = "C") {
    return tones_of(bars, bar, grip, key) == Tones::right;
}

bool has_wrong_tones(const std::string& bars, int bar, const std::string& grip,
                     const std::string& key) {
    return tones_of(bars, bar, grip, key) == Tones::wrong;
}

constexpr const char* g7_flat_13 = "3x344x";  // G F B E flat
constexpr const char* d7_flat_9 = "x5454x";   // D F sharp C E flat
constexpr const char* f7_sharp_9 = "x8789x";  // F A E flat A flat
constexpr const char* bb7_sharp_9 = "x1012x";
constexpr const char* cm6 = "x3124x";  // C E flat A E flat

}  // namespace

TEST_CASE("a dominant that falls a fifth or a semitone takes alterations, another does not") {
    CHECK(is_right("G7 | Cmaj7", 1, g7_flat_13));
    CHECK(is_right("G7 | Cm6", 1, g7_flat_13));
    CHECK(is_right("G7 | Gbmaj7", 1, g7_flat_13));
    CHECK(is_right("G7 | C/G", 1, g7_flat_13));
    CHECK(!is_right("G7 | Fmaj7", 1, g7_flat_13));
    CHECK(!is_right("G7 | A7 | Dmaj7", 1, g7_flat_13));
    CHECK(!is_right("G7", 1, g7_flat_13));  // a vamp on one chord leads nowhere
}

TEST_CASE("a raised eleventh is right on the IV of a major key, and there only") {
    const char* const sharp_eleven = "x-8-9-9-10-x";  // F B E A
    CHECK(is_right("Cmaj7 | Fmaj7", 2, sharp_eleven));
    CHECK(is_right("Cmaj7 | Fmaj9", 2, sharp_eleven));
    CHECK(!is_right("Cmaj7 | Fmaj7", 2, sharp_eleven, "F"));
    CHECK(!is_right("Cm7 | Fmaj7", 2, sharp_eleven, "C minor"));
}

TEST_CASE("a dominant's fall is seen past its own sus, another alteration and its substitute") {
    CHECK(is_right("G7 | G7sus4 | Cmaj7", 1, g7_flat_13));
    CHECK(is_right("G7sus4 | G7 | Cmaj7", 2, g7_flat_13));
    CHECK(is_right("G7 | G9 | G7b9 | Cmaj7", 1, g7_flat_13));
    CHECK(is_right("G7 | Db7 | Cmaj7", 1, g7_flat_13));
    CHECK(is_right("Ab7 | D7 | Gmaj7", 1, "4x455x"));  // A flat seven falls to G by way of D7
    CHECK(!is_right("G7 | G7sus4 | Fmaj7", 1, g7_flat_13));
    CHECK(!is_right("G7 | Db7 | Fmaj7", 1, g7_flat_13));
}

TEST_CASE("a dominant's fall is seen past the ii-V that puts it off") {
    CHECK(is_right("G7 | Dm7 G7 | Cmaj7", 1, g7_flat_13));
    CHECK(is_right("G7 | Dm7b5 G7 | Cm6", 1, g7_flat_13));
    CHECK(is_right("G7 | Dm7 | Dm7 | G7sus4 G7 | Cmaj7", 1, g7_flat_13));
    CHECK(is_right("D7 | Dm7 G7 | Cmaj7", 1, d7_flat_9));
    CHECK(!is_right("G7 | Dm7 | Fmaj7", 1, g7_flat_13));
    CHECK(!is_right("G7 | Dm7 | G7 | Dm7", 1, g7_flat_13));  // to and fro
    CHECK(!is_right("D7 | Dm7 | Cmaj7", 1, d7_flat_9));
}

TEST_CASE("a dominant falls across N.C., the seam of the chorus, and the end of a loop") {
    CHECK(is_right("G7 | N.C. | Cmaj7", 1, g7_flat_13));
    CHECK(is_right("Cmaj7 | Am7 | Dm7 | G7", 4, g7_flat_13));
    CHECK(is_right("Cmaj7 | Am7 | Dm7 | G7 / N.C. /", 4, g7_flat_13));
    CHECK(is_right("G7 | Cmaj7 | Dm7 | G7", 4, g7_flat_13));  // the chorus ends as it begins
    CHECK(!is_right("Fmaj7 | Am7 | Dm7 | G7", 4, g7_flat_13));
    // Bars 1 and 2 are looped: G7 leads to C in the tune, though the loop goes on to F.
    for (const int times : {1, 2}) {
        Comper loop("Fmaj7 | G7 | Cmaj7 | %", 120);
        loop.passage(1, 2).times(times).strum(2, 1, g7_flat_13);
        CHECK(loop.change(2).tones == Tones::right);
    }
    // And where only the loop has the fall.
    Comper seam("Cmaj7 | G7 | Fmaj7 | %", 120);
    seam.passage(1, 2).times(2).strum(2, 1, g7_flat_13);
    CHECK(seam.change(2).tones == Tones::right);
}

TEST_CASE("the sharp ninth of the one and the four belongs to a blues, whatever else is in it") {
    const std::string plain = "F7 | Bb7 | F7 | % | Bb7 | % | F7 | % | C7 | Bb7 | F7 | C7";
    CHECK(is_right(plain, 7, f7_sharp_9, "F"));
    CHECK(is_right(plain, 10, bb7_sharp_9, "F"));
    const std::string changes =
        "Fmaj7 | Em7b5 A7b9 | Dm7 G7 | Cm7 F7 | Bb7 | Bbm7 Eb7 | Am7 D7 | Abm7 Db7 | Gm7 | C7 | "
        "F7 D7 | Gm7 C7";
    CHECK(is_right(changes, 5, bb7_sharp_9, "F"));
    CHECK(is_right(changes, 11, f7_sharp_9, "F"));
    // A four with a minor seventh in a tune that is no blues, though its one turns into a dominant.
    const std::string tune = "Fmaj7 | F7 | Bbmaj7 | Bb7 | Fmaj7 | Gm7 C7";
    CHECK(!is_right(tune, 4, bb7_sharp_9, "F"));
    CHECK(is_right(tune, 2, f7_sharp_9, "F"));  // it falls
    CHECK(!is_right("F6 | Bb7 | F6 | C7", 2, bb7_sharp_9, "F"));
}

TEST_CASE("a minor blues: the one may have its sixth, the five and the flat six alterations") {
    const std::string bars = "Cm7 | Fm7 | Cm7 | C7 | Fm7 | % | Cm7 | % | Ab7 | G7 | Cm7 | Dm7b5 G7";
    CHECK(has_wrong_tones(bars, 1, cm6, "Cm") == false);
    CHECK(has_wrong_tones(bars, 11, cm6, "Cm") == false);
    CHECK(has_wrong_tones(bars, 1, cm6, "Bb"));  // there it is a ii
    CHECK(is_right(bars, 4, "x3234x", "Cm"));    // C7 with its sharp ninth, to the four
    CHECK(is_right(bars, 9, "4x455x", "Cm"));    // A flat G flat C E natural, down to G7
    CHECK(is_right(bars, 10, g7_flat_13, "Cm"));
    // A minor third on the one is what it should have, a major third is wrong.
    CHECK(has_wrong_tones(bars, 1, "x3x35x", "Cm"));
}
