// Which key a tune is put into.

#include "chart/keys.hpp"
#include "support/catch.hpp"

#include <compline/chart/transpose.hpp>
#include <compline/text/bad_input.hpp>

#include <array>
#include <cstdlib>
#include <string>

using namespace compline;
using tests::key_of;
using tests::majors;
using tests::minors;

namespace {

constexpr auto letters = harmony::Accidentals::letters;

std::string refusal(const std::string& tune, const std::string& text) {
    try {
        (void)chart::read_key_for(key_of(tune), text);
    } catch (const text::BadInput& bad) {
        return bad.what();
    }
    return "taken";
}

}  // namespace

TEST_CASE("keys have six sharps or flats at most") {
    const std::array<std::array<std::string, 2>, 14> table = {{{"C#", "Db"},
                                                               {"G#", "Ab"},
                                                               {"Fb", "E"},
                                                               {"Cb", "B"},
                                                               {"A#", "Bb"},
                                                               {"D#", "Eb"},
                                                               {"A#m", "Bbm"},
                                                               {"E#m", "Fm"},
                                                               {"Abm", "G#m"},
                                                               {"Dbm", "C#m"},
                                                               {"Gbm", "F#m"},
                                                               {"B#", "C"},
                                                               {"Fbm", "Em"},
                                                               {"Cbm", "Bm"}}};
    for (const auto& [asked, had] : table) {
        CHECK(chart::readable(key_of(asked)).name(letters) == had);
    }
    for (const auto& keys : {majors, minors}) {
        for (const auto& name : keys) {
            CHECK(chart::readable(key_of(name)).name(letters) == name);
            CHECK(std::abs(chart::sharps_of(key_of(name))) <= 6);
        }
    }
    CHECK(chart::sharps_of(key_of("Eb")) == -3);
    CHECK(chart::sharps_of(key_of("Cm")) == -3);
    CHECK(chart::sharps_of(key_of("F#m")) == 3);
}

TEST_CASE("a key so many semitones higher has the name that is nearer, and flats of two") {
    const std::array<std::string, 12> from_f = {"F", "Gb", "G",  "Ab", "A",  "Bb",
                                                "B", "C",  "Db", "D",  "Eb", "E"};
    const std::array<std::string, 12> from_e_minor = {"Em",  "Fm", "F#m", "Gm",  "G#m", "Am",
                                                      "Bbm", "Bm", "Cm",  "C#m", "Dm",  "D#m"};
    for (int up = 0; up < 12; ++up) {
        const auto at = static_cast<std::size_t>(up);
        CHECK(chart::key_apart(key_of("F"), up).name(letters) == from_f[at]);
        CHECK(chart::key_apart(key_of("F"), up - 12).name(letters) == from_f[at]);
        CHECK(chart::key_apart(key_of("Em"), up).name(letters) == from_e_minor[at]);
    }
    CHECK(chart::key_apart(key_of("G"), -1).name(letters) == "F#");
    CHECK(chart::key_apart(key_of("C"), 6).name(letters) == "Gb");
}

TEST_CASE("a tune is moved to a key of its own mode") {
    CHECK(chart::read_key_for(key_of("F"), "G").name(letters) == "G");
    CHECK(chart::read_key_for(key_of("Dm"), "G").name(letters) == "Gm");
    CHECK(chart::read_key_for(key_of("Dm"), "G minor").name(letters) == "Gm");
    CHECK(chart::read_key_for(key_of("F"), "C♯").name(letters) == "Db");
    CHECK(chart::read_key_for(key_of("F"), "F#").name(letters) == "F#");
    CHECK(chart::read_key_for(key_of("F"), "Gb").name(letters) == "Gb");
    CHECK(refusal("F", "Gm") ==
          "\"Gm\" is no key for a tune in F major, which stays in major when it is moved: write a "
          "key such as G");
    CHECK(refusal("Dm", "G major") ==
          "\"G major\" is no key for a tune in D minor, which stays in minor when it is moved: "
          "write a key such as Gm");
    CHECK(refusal("F", "H").find("\"H\" is not a key") == 0);
}

TEST_CASE("a capo has the guitarist think in a key lower") {
    const auto shape = [](const char* symbol, const char* key, int capo) {
        return chart::shape_of(harmony::read_chord(symbol), key_of(key), capo).symbol(letters);
    };
    CHECK(shape("Bb7/D", "Eb", 1) == "A7/C#");
    CHECK(shape("Fm7", "Eb", 3) == "Dm7");
    CHECK(shape("Bm", "F#m", 2) == "Am");
}
