#include "support/catch.hpp"

#include <compline/harmony/chord.hpp>
#include <compline/text/bad_input.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace compline::harmony;

namespace {

using Rows = std::vector<std::pair<const char*, const char*>>;

std::string refusal(const std::string& symbol) {
    try {
        return "read as " + read_chord(symbol).symbol(Accidentals::letters);
    } catch (const compline::text::BadInput& error) {
        return error.expected();
    }
}

void check_read(const Rows& rows) {
    for (const auto& [symbol, canonical] : rows) {
        INFO(symbol);
        CHECK(refusal(symbol) == std::string("read as ") + canonical);
    }
}

void check_refused(const Rows& rows) {
    for (const auto& [symbol, words] : rows) {
        INFO(symbol << ": " << refusal(symbol));
        CHECK(refusal(symbol).find(words) != std::string::npos);
    }
}

}  // namespace

TEST_CASE("a triangle and a minus are read in whatever sign a keyboard has for them") {
    // U+2206, U+0394, U+25B3; U+2013, U+2011, U+2212.
    check_read({{"C∆7", "Cmaj7"},
                {"C∆", "Cmaj7"},
                {"CΔ9", "Cmaj9"},
                {"C△", "Cmaj7"},
                {"Cm∆", "Cm(maj7)"},
                {"C–∆7", "Cm(maj7)"},
                {"C–7", "Cm7"},
                {"C‑7", "Cm7"},
                {"C−7", "Cm7"},
                {"C–7–5", "Cm7b5"},
                {"C7‑9", "C7b9"}});
}

TEST_CASE("words are read in capitals and small letters, and M and m stay two chords") {
    check_read(
        {{"CMAJ7", "Cmaj7"},     {"CMaj7", "Cmaj7"}, {"CMin7", "Cm7"},     {"CMIN7", "Cm7"},
         {"CMi7", "Cm7"},        {"Csus", "Csus4"},  {"CSUS4", "Csus4"},   {"C7Sus", "C7sus4"},
         {"CAlt", "C7alt"},      {"C7ALT", "C7alt"}, {"CDim7", "Cdim7"},   {"CAUG", "Caug"},
         {"CmMAJ7", "Cm(maj7)"}, {"CADD9", "Cadd9"}, {"CmAdd9", "Cmadd9"}, {"CMadd9", "Cadd9"},
         {"C(No3)", "C5"},       {"Cminor7", "Cm7"}, {"CMajor7", "Cmaj7"}, {"CM7", "Cmaj7"},
         {"Cm7", "Cm7"},         {"CM", "C"},        {"Cmaj.7", "Cmaj7"},  {"Cmin.7", "Cm7"}});
}

TEST_CASE(
    "a number behind sus or a slash, and a major seventh behind a number, say what they say") {
    check_read({{"Csus7", "C7sus4"},
                {"Csus9", "C9sus4"},
                {"Csus13", "C13sus4"},
                {"Csus2/4", "Csus4add9"},
                {"C7/13", "C7add13"},
                {"C9/13", "C13"},
                {"C7/9", "C9"},
                {"C7/b9", "C7b9"},
                {"C7/#11/13", "C7#11add13"},
                {"Cm7/11/G", "Cm7add11/G"},
                {"C7(9/13)", "C13"},
                {"Cm9(maj7)", "Cm(maj9)"},
                {"Cm7M", "Cm(maj7)"},
                {"C6(maj7)", "Cmaj7add13"},
                {"C6maj7", "Cmaj7add13"},
                {"C6/9(maj7)", "Cmaj13"},
                {"C9(maj7)", "Cmaj9"},
                {"C(maj7)", "Cmaj7"},
                {"Csus4(maj7)", "Cmaj7sus4"},
                {"C5(maj7)", "Cmaj7(no3)"}});
}

TEST_CASE("blanks in parentheses, a point behind an abbreviation and rd behind a 3 do no harm") {
    check_read({{"C7(b9 b13)", "C7b9b13"},
                {"C7( b9, #11 )", "C7b9#11"},
                {"C7(no 3)", "C7(no3)"},
                {"C7(omit 5)", "C7(no5)"},
                {"C(no3rd)", "C5"},
                {"C7(no5th)", "C7(no5)"},
                {"Cm7(add 11)", "Cm7add11"},
                {"C7alt.", "C7alt"}});
}

TEST_CASE("a symbol that is no lead-sheet notation is refused with the spelling that is") {
    check_refused({{"C4", "a bare 4 is written sus4, or add11"},
                   {"C7/4", "write C7/F, or C7sus4 for the tone"},
                   {"Cm7/4", "write Cm7/F, or Cm7add11 for the tone"},
                   {"Cm7/b5", "write Cm7/Gb, or Cm7b5 for the tone"},
                   {"C/3", "a bass is a note, A to G: write C/E"},
                   {"C/e", "a bass note is a capital letter"},
                   {"C7(maj7)", "a chord has one seventh"},
                   {"Cmaj7(maj7)", "a chord has one seventh"},
                   {"Cø(maj7)", "a chord has one seventh"},
                   {"CmMaj", "with its 7: m(maj7)"},
                   {"C6(maj)", "with its 7: maj7"},
                   {"Cm(7)", "a 7 stands without parentheses"},
                   {"C7sus7", "known with sus: sus2 sus4 6sus4 7sus2 7sus4"},
                   {"Csus11", "known with sus: sus2"},
                   {"Cm5", "the fifth is in it anyway; an altered one is b5 or #5"},
                   {"Cmaj2", "a bare 2 is written add9"},
                   {"Cdom7", "a dominant is written by its number alone"},
                   {"Cm7flat5", "a flat is written b"},
                   {"C7sharp9", "a sharp is written #"},
                   {"C^7", "a major seventh is written maj7"},
                   {"Ch7", "a half-diminished chord is written m7b5"},
                   {"Cadd7", "not added but written behind the root"},
                   {"C 7", "no blank but in parentheses"},
                   {"C7)", "closes no parenthesis"},
                   {"cm7", "a capital letter, A to G"},
                   {"Hm7", "the German H is B"},
                   {"N", "where nobody plays write N.C."},
                   {"n.c.", "where nobody plays write N.C."}});
}

TEST_CASE("a chord as annotations write it is refused with the lead sheet's spelling of it") {
    check_refused({{"A:min7", "A:min7 is written Am7"},
                   {"C:maj7/3", "C:maj7/3 is written Cmaj7/E"},
                   {"Bb:7/b7", "Bb:7/b7 is written Bb7/Ab"},
                   {"F#:hdim7", "F#:hdim7 is written F#m7b5"},
                   {"D:minmaj7", "D:minmaj7 is written Dm(maj7)"},
                   {"G:sus4(b7)", "G:sus4(b7) is written G7sus4"},
                   {"C:min7(*5)/b7", "C:min7(*5)/b7 is written Cm7(no5)/Bb"},
                   {"A:foo", "no colon in its chords, Am7 and not A:min7"}});
}

TEST_CASE("no error says that what stands there could stand there") {
    // Each of these has one thing wrong, somewhere.
    const std::vector<std::string> endings = {
        "maj", "maj7", "7",   "m", "add",  "sus", "alt", "(",    "(9", "(maj7)", "no", "b",
        "5",   "69",   "6/9", "°", "dim7", "ø",   "/",   "alt.", "△",  "omit",   "2",  "4"};
    for (const std::string quality :
         {"", "m", "7", "maj7", "6", "9", "sus4", "7b9", "dim", "alt"}) {
        for (const auto& ending : endings) {
            const auto words = refusal("C" + quality + ending);
            const auto stands = words.find(" stands "), instead = words.rfind(", not \"");
            if (stands == std::string::npos || instead == std::string::npos) continue;
            auto found = words.substr(instead + 7);
            found.resize(found.find_first_of("\")"));
            const auto list = words.substr(stands, instead - stands) + ",";
            INFO(words);
            CHECK(list.find(" " + found + ",") == std::string::npos);
            CHECK(list.find(" " + found + " ") == std::string::npos);
        }
    }
}
