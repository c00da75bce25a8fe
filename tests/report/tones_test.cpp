#include "support/catch.hpp"

#include <compline/harmony/quality.hpp>
#include <compline/report/columns.hpp>
#include <compline/report/tones.hpp>
#include <compline/text/bad_input.hpp>

#include <set>
#include <sstream>
#include <string>

using namespace compline;
using report::tones_text;

TEST_CASE("the tones of a chord: what is written, what must sound, what may and what never",
          "[report]") {
    CHECK(tones_text(harmony::read_chord("C9")) ==
          "C9\n"
          "  as written                1 C   3 E   5 G   ♭7 B♭   9 D\n"
          "  must sound                3 E   ♭7 B♭\n"
          "    in strictness written   9 D\n"
          "  may sound too             13 A\n"
          "  falling a fifth, semitone ♯11 F♯   ♭13 A♭ without the 5\n"
          "  for two beats or more     11 F until the third sounds\n"
          "  substitutions             ♭9 D♭   ♯9 D♯   ♯11 ♭13 anywhere\n"
          "  never                     7 B\n");
    CHECK(tones_text(harmony::read_chord("C7alt")) ==
          "C7alt\n"
          "  as written                1 C   3 E   ♭7 B♭   ♭9 D♭   ♯9 D♯   ♯11 F♯   ♭13 A♭\n"
          "  must sound                3 E   ♭7 B♭   one of ♭9 D♭, ♯9 D♯, ♯11 F♯, ♭13 A♭\n"
          "  never                     5 G   7 B   9 D   13 A\n");
    CHECK(tones_text(harmony::read_chord("Bbdim7/E")) ==
          "B♭dim7/E\n"
          "  as written                1 B♭   ♭3 D♭   ♭5 F♭   ♭♭7 A𝄫\n"
          "  in the bass               E\n"
          "  must sound                any three of 1 B♭   ♭3 D♭   ♭5 F♭   ♭♭7 A𝄫\n"
          "  may sound too             9 C   11 E♭   ♭13 G♭   7 A\n"
          "                            with three of its own tones, the next above too\n"
          "  never                     3 D   5 F\n");
    CHECK(tones_text(harmony::read_chord("Fm7")).find("6 D for the ♭7") != std::string::npos);
    CHECK(tones_text(harmony::read_chord("F13")).find("as I7 or IV7 of a blues   ♯9 too") !=
          std::string::npos);
}

TEST_CASE("what must sound is no tone that the symbol takes out", "[report]") {
    CHECK(tones_text(harmony::read_chord("C(b5,no3)")) ==
          "C(♭5)(no3)\n"
          "  as written                1 C   ♭5 G♭\n"
          "  must sound                1 C   ♭5 G♭\n"
          "  never                     3 E   ♭3 E♭   5 G\n");
    CHECK(tones_text(harmony::read_chord("Cdim7(no5)")).find("any three") == std::string::npos);
    CHECK(tones_text(harmony::read_chord("Cdim(no3)")).find("any two of 1 C   ♭5 G♭   ♭♭7 B𝄫") !=
          std::string::npos);
}

TEST_CASE("what may sound beside some tones only is said with them", "[report]") {
    const auto says = [](const char* symbol, const char* words) {
        INFO(symbol << ": " << words);
        CHECK(tones_text(harmony::read_chord(symbol)).find(words) != std::string::npos);
    };
    says("Cm7b5", "may sound too             11 F\n");
    says("C13sus4", "may sound too             3 E above the 4\n");
    says("C7", "♭13 A♭ without the 5\n");
    says("Fmaj7", "as IV of a major key      ♯11 B\n");
    says("Fmaj7", "substitutions             ♯11 anywhere\n");
    says("F/G", "or played as              G9sus4\n");
    says("Dm7/G", "or played as              G9sus4\n");
    says("Cm6", "as minor tonic            7 B for the 6   ♭7 B♭ for the 6\n");
    says("Cm6/9", "as minor tonic            7 B for the 6\n");
    CHECK(tones_text(harmony::read_chord("Cm")).find("minor tonic") == std::string::npos);
}

TEST_CASE("below what must sound no note is named twice, nor one that stands above", "[report]") {
    for (const auto& row : harmony::quality_table()) {
        for (const char* alteration : {"", "b5", "#5", "b9", "#9", "#11", "b13", "add9", "/G"}) {
            harmony::Chord chord;
            try {
                chord = harmony::read_chord("F" + std::string(row.symbol) + alteration);
            } catch (const text::BadInput&) {
                continue;  // not every alteration goes with every quality
            }
            std::istringstream text(tones_text(chord));
            std::set<std::string> named;
            for (std::string line; std::getline(text, line);) {
                const bool again = line.find("must") != std::string::npos ||
                                   line.find("strictness") != std::string::npos ||
                                   line.find("played as") != std::string::npos;
                if (again || line.size() < 28 || line[0] != ' ') continue;
                const bool bass = line.find("in the bass") != std::string::npos;
                std::istringstream words(line.substr(28));
                for (std::string word; words >> word;) {
                    INFO(chord.symbol() << ": " << line);
                    if (word.at(0) < 'A' || word.at(0) > 'G') continue;
                    const bool is_new = named.insert(word).second;
                    CHECK((is_new || bass));
                }
            }
        }
    }
}

TEST_CASE("no line about any chord is wider than a terminal", "[report]") {
    for (const auto& row : harmony::quality_table()) {
        for (const auto& root : {harmony::Spelling{harmony::Letter::G, -2},
                                 harmony::Spelling{harmony::Letter::D, 2}}) {
            std::istringstream text(tones_text({root, row.quality, {}, {}}));
            for (std::string line; std::getline(text, line);) {
                INFO(line);
                CHECK(report::columns_of(line) <= 80);
            }
        }
    }
}
