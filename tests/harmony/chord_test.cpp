#include "support/catch.hpp"
#include "support/every_chord.hpp"

#include <compline/harmony/chord.hpp>
#include <compline/harmony/quality.hpp>
#include <compline/text/bad_input.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace compline::harmony;
using compline::tests::alterations_of;
using compline::tests::each_chord_to;
using compline::tests::each_set_to;

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
    } catch (const compline::text::BadInput& error) {
        return error.offset().value();
    }
    return std::string::npos;
}

/// What is wrong with a chord's symbol when it is typed back; nothing if nothing is.
std::string reading_again(const Chord& chord, Accidentals style) {
    const auto printed = chord.symbol(style);
    try {
        const Chord again = read_chord(printed);
        if (!(again == chord)) return printed + " is read as " + again.symbol(style);
        return again.symbol(style) == printed ? "" : printed + " is printed another time";
    } catch (const compline::text::BadInput& error) {
        return error.what();
    }
}

/// The alterations of a set, typed in parentheses: "(b5,add9,no3)".
std::string items(std::size_t set) {
    std::string text;
    for (const auto& row : alteration_table()) {
        if (set % 2 != 0) text += (text.empty() ? "(" : ",") + std::string(row.symbol);
        set /= 2;
    }
    text.erase(
        std::remove_if(text.begin() + 1, text.end(), [](char c) { return c == '(' || c == ')'; }),
        text.end());
    return text + ")";
}

/// What can be typed: each quality with each set of so many alterations at most behind it, but for
/// what is refused (C5b5, C7altb9, Cm7b5(b5)).
template <typename Visit>
void each_typed(const std::string& root, std::size_t most, Visit visit) {
    for (const auto& row : quality_table()) {
        each_set_to(most, [&](std::size_t set) {
            const auto symbol = root + std::string(row.symbol) + (set == 0 ? "" : items(set));
            if (error_place(symbol) == std::string::npos) visit(symbol, read_chord(symbol), set);
        });
    }
}

bool sounds_in(const std::vector<Degree>& degrees, const Degree& degree) {
    return std::any_of(degrees.begin(), degrees.end(),
                       [&](const Degree& d) { return d.pitch_class() == degree.pitch_class(); });
}

}  // namespace

TEST_CASE("a chord's tones are spelled as a musician writes them") {
    // Values from memory of any harmony primer.
    CHECK(notes_of("C7") == "C E G B♭");
    CHECK(notes_of("F#7") == "F♯ A♯ C♯ E");
    CHECK(notes_of("Bbm7b5") == "B♭ D♭ F♭ A♭");
    CHECK(notes_of("E♭maj7") == "E♭ G B♭ D");
    CHECK(notes_of("G#dim7") == "G♯ B D F");
    CHECK(notes_of("Cdim7") == "C E♭ G♭ B𝄫");
    CHECK(notes_of("C#aug") == "C♯ E♯ G𝄪");
    CHECK(notes_of("Ab13") == "A♭ C E♭ G♭ B♭ F");
    CHECK(notes_of("D6/9") == "D F♯ A B E");
    CHECK(notes_of("B7b9") == "B D♯ F♯ A C");
    CHECK(notes_of("Gb7sus4") == "G♭ C♭ D♭ F♭");
    CHECK(notes_of("F#7#9") == "F♯ A♯ C♯ E G𝄪");
    CHECK(notes_of("C13#11") == "C E G B♭ D A F♯");
    CHECK(notes_of("Am(maj7)") == "A C E G♯");
    CHECK(notes_of("C11") == "C G B♭ D F");
    CHECK(notes_of("C7(no3)") == "C G B♭");
}

TEST_CASE("every spelling of a chord prints one canonical symbol") {
    struct Row {
        const char* symbol;
        std::vector<const char*> spellings;
    };
    const std::vector<Row> rows = {
        {"", {"maj", "ma", "M", "Maj"}},
        {"m", {"mi", "min", "-", "−", "MI"}},
        {"dim", {"°", "o", "º", "mb5", "m(b5)"}},
        {"aug", {"+", "+5", "(#5)", "maj#5"}},
        {"sus4", {"sus", "(sus4)", "msus4"}},
        {"sus4add9", {"sus24", "sus2add4", "sus(9)"}},
        {"add9", {"2", "add2", "(9)", "(add9)"}},
        {"madd9", {"m(9)", "mi(add9)", "-add2"}},
        {"5", {"(no3)", "no3", "omit3", "5(no3)"}},
        {"5add9", {"add9(no3)", "(add9,no3)", "2(no3)", "5(9)", "5(add9)", "5add2"}},
        {"5addb9", {"addb9(no3)", "(b9,no3)", "5(addb9)"}},
        {"6(no3)", {"5add13", "5add6", "add13(no3)"}},
        {"(b5)(no3)", {"(b5,no3)", "(no3)(b5)"}},
        {"(b5)add9(no3)", {"(b5,add9,no3)", "add9(b5,no3)"}},
        {"add9(no3)(no5)", {"(add9,no3,no5)", "add9no5no3"}},
        {"6", {"maj6", "M6", "add6", "(13)"}},
        {"6/9", {"69", "6(9)", "6add9", "maj69"}},
        {"m6", {"-6", "min6", "madd6"}},
        {"m6/9", {"m69", "-69", "m6(9)"}},
        {"maj7", {"ma7", "M7", "△", "△7", "Δ", "Maj7", "7M"}},
        {"maj9", {"M9", "△9", "maj7(9)", "maj7add9"}},
        {"maj7#11", {"△#11", "M7(#11)", "maj7(♯11)"}},
        {"m(maj7)", {"mM7", "m△", "m△7", "-△", "m/maj7", "min(ma7)", "mMaj7"}},
        {"m(maj9)", {"mM9", "m△9", "m(maj7)(9)"}},
        {"m7b5", {"ø", "ø7", "Ø", "-7b5", "m7(b5)", "mi7♭5", "min7-5"}},
        {"m9b5", {"ø9", "m7b5(9)", "m9(b5)"}},
        {"dim7", {"°7", "o7"}},
        {"dim(maj7)", {"°maj7", "oM7", "dim△"}},
        {"9", {"7(9)", "7add9"}},
        {"13", {"7(9,13)", "9(13)", "7(13,9)"}},
        {"7#5", {"7+", "+7", "aug7", "7(#5)", "7+5", "7aug"}},
        {"9#5", {"9+", "+9", "aug9", "7#5(9)"}},
        {"maj7#5", {"+M7", "aug(maj7)", "+△", "maj7+5"}},
        {"7b9", {"7(b9)", "7-9", "7♭9", "9b9", "7−9"}},
        {"7#11", {"7+11", "7(#11)", "7#4"}},
        {"7b9add9", {"7(b9,add9)", "7(9,b9)"}},
        {"7b9#11", {"7#11b9", "7(b9,#11)", "7(#11)(b9)", "7b9,#11", "7(b9#11)"}},
        {"7#5#9", {"7#9#5", "7(#5,#9)", "+7#9", "aug7(#9)"}},
        {"13#11", {"13(#11)", "7(9,#11,13)", "13+11"}},
        {"7alt", {"alt", "7(alt)"}},
        {"7sus4", {"7sus", "m7sus4", "7(sus4)"}},
        {"9sus4", {"9sus", "7sus4(9)", "7sus(add9)"}},
        {"13sus4", {"13sus", "9sus4(13)"}},
        {"7sus4b9", {"7b9sus4", "7sus(b9)", "7sus4(b9)"}},
    };
    for (const auto& row : rows) {
        for (const char* const root : {"C", "F#", "Bb", "E♭♭"}) {
            const Chord canonical = read_chord(std::string(root) + row.symbol);
            CHECK(canonical.symbol(Accidentals::letters) ==
                  canonical.root.name(Accidentals::letters) + row.symbol);
            for (const char* const spelling : row.spellings) {
                INFO(root << " " << spelling);
                CHECK(read_chord(std::string(root) + spelling) == canonical);
            }
        }
    }
    CHECK(read_chord("Bb-7b5").symbol() == "B♭m7♭5");
    CHECK(read_chord("Bb-7b5").symbol(Accidentals::letters) == "Bbm7b5");
    CHECK(read_chord("F##7").symbol() == "F𝄪7");
}

TEST_CASE("printed and read again a chord is the same, whatever is altered, added or left out") {
    std::string wrong;
    int chords = 0;
    each_chord_to(Alterations::kinds, [&](Chord chord, std::size_t set) {
        chord.root = {static_cast<Letter>(set % 7), static_cast<int>(set % 5) - 2};
        if (set % 3 == 0) {
            chord.bass = Spelling{static_cast<Letter>(set % 7), static_cast<int>(set % 4) - 1};
        }
        for (const auto style : {Accidentals::symbols, Accidentals::letters}) {
            if (wrong.empty()) wrong = reading_again(chord, style);
        }
        ++chords;
    });
    INFO(wrong);
    CHECK(wrong.empty());
    CHECK(chords > 40'000);
}

TEST_CASE("a chord at its simplest has no simpler form") {
    std::string wrong;
    for (const auto& row : quality_table()) {
        each_set_to(Alterations::kinds, [&](std::size_t set) {
            const Chord simple = simplest({{}, row.quality, alterations_of(set), {}});
            if (!(simplest(simple) == simple)) wrong = simple.symbol();
        });
    }
    INFO(wrong);
    CHECK(wrong.empty());
}

TEST_CASE("whatever is typed behind a quality is read again as it is printed, on any root") {
    std::string wrong;
    int typed = 0;
    for (const char* const root : {"A", "C", "Bb", "F♯"}) {
        each_typed(root, 2, [&](const std::string& symbol, const Chord& chord, std::size_t) {
            for (const auto style : {Accidentals::symbols, Accidentals::letters}) {
                const auto fault = reading_again(chord, style);
                if (wrong.empty() && !fault.empty()) wrong = symbol + ": " + fault;
            }
            ++typed;
        });
    }
    INFO(wrong);
    CHECK(wrong.empty());
    CHECK(typed > 11'000);
}

TEST_CASE("a tone that is typed is among the chord's, and never one that would be wrong on it") {
    std::string wrong;
    each_typed("C", 3, [&](const std::string& symbol, const Chord& chord, std::size_t set) {
        const auto tones = chord_tones(chord);
        const auto never = contradicted_tones(chord);
        const auto said = alterations_of(set);
        for (const auto& row : alteration_table()) {
            // A fifth altered and left out: what is left out is out.
            const bool out = row.replaces == "5" && said.has(Alteration::no_fifth);
            if (!said.has(row.alteration) || row.tone.empty() || out) continue;
            const auto tone = read_degrees(row.tone).front();
            if (!sounds_in(tones, tone) || sounds_in(never, tone)) wrong = symbol;
        }
    });
    INFO(wrong);
    CHECK(wrong.empty());
}

TEST_CASE("alterations are read in any order, bare, in parentheses, with commas") {
    const std::vector<std::string> tensions = {"b5", "#5", "b9", "#9", "#11", "b13"};
    const std::vector<std::size_t> orders[] = {{0, 1, 2}, {2, 1, 0}, {1, 2, 0}, {2, 0, 1}};
    for (std::size_t a = 0; a < 6; ++a) {
        for (std::size_t b = a + 1; b < 6; ++b) {
            for (std::size_t c = b + 1; c < 6; ++c) {
                const auto chord = read_chord("A7" + tensions[a] + tensions[b] + tensions[c]);
                for (const auto& order : orders) {
                    const std::string three[] = {tensions[a], tensions[b], tensions[c]};
                    const auto& x = three[order[0]];
                    const auto& y = three[order[1]];
                    const auto& z = three[order[2]];
                    CHECK(read_chord("A7" + x + y + z) == chord);
                    CHECK(read_chord("A7(" + x + y + z + ")") == chord);
                    CHECK(read_chord("A7(" + x + "," + y + "," + z + ")") == chord);
                    CHECK(read_chord("A7" + x + "(" + y + ")(" + z + ")") == chord);
                    CHECK(read_chord("A7" + x + "," + y + "," + z) == chord);
                }
            }
        }
    }
}

TEST_CASE("a slash names the bass and never clashes with 6/9 or m/maj7") {
    CHECK(read_chord("C6/9").quality == Quality::six_nine);
    CHECK(!read_chord("C6/9").bass.has_value());
    CHECK(read_chord("C6/9/E").bass->name() == "E");
    CHECK(read_chord("C7/Bb").bass->name() == "B♭");
    CHECK(read_chord("C/E").symbol() == "C/E");
    CHECK(read_chord("C6/E").quality == Quality::sixth);
    CHECK(read_chord("Cm/maj7").quality == Quality::minor_major_seventh);
    CHECK(!read_chord("Cm/maj7").bass.has_value());
    CHECK(read_chord("Cm/A").bass->name() == "A");
    CHECK(read_chord("C7(b9,#11)/F##").bass->name() == "F𝄪");
}

TEST_CASE("an accidental behind the root is the root's own") {
    CHECK(read_chord("Cb5").root == Spelling{Letter::C, -1});
    CHECK(read_chord("Cb5").quality == Quality::power);
    CHECK(read_chord("C(b5)").root == Spelling{Letter::C, 0});
    CHECK(read_chord("C(b5)").symbol(Accidentals::letters) == "C(b5)");
    CHECK(read_chord("C#9").root == Spelling{Letter::C, 1});
    CHECK(read_chord("Ebb7").root == Spelling{Letter::E, -2});
}

TEST_CASE("a wrong symbol says at which character it goes wrong") {
    CHECK(error_place("H7") == 0);
    CHECK(error_place("") == 0);
    CHECK(error_place("Cmaj7x") == 5);
    CHECK(error_place("Dm7b7") == 4);
    CHECK(error_place("C7b9b9") == 4);
    CHECK(error_place("C7(b9,b9)") == 6);
    CHECK(error_place("C7(b9") == 5);
    CHECK(error_place("C7()") == 3);
    CHECK(error_place("C7add8") == 5);
    CHECK(error_place("C(no7)") == 4);
    CHECK(error_place("C-5") == 2);
    CHECK(error_place("C7/") == 3);
    CHECK(error_place("C7/H") == 3);
    CHECK(error_place("C7/Ex") == 4);
    CHECK(error_place("B♭q") == 4);
    CHECK(error_place("B♭7♭q") == 8);
    CHECK(error_place("c7") == 0);
    CHECK(error_place("C7altb9") == 1);
    CHECK(error_place("C5b9") == 1);
    CHECK(error_place("C5b5") == 1);
    CHECK(error_place("C5(#5)") == 1);
    CHECK(error_place("C5aug") == 1);
    CHECK(error_place("C5add9(no5)") == 1);
    CHECK(error_place("Cdim9") == 1);
    CHECK(error_place("C11sus4") == 1);
    CHECK(error_place("Csus2sus4") == 5);
}

TEST_CASE("an error says what could stand there") {
    const auto words = [](const char* symbol) -> std::string {
        try {
            (void)read_chord(symbol);
        } catch (const compline::text::BadInput& error) {
            return error.what();
        }
        return "";
    };
    CHECK(words("C7b") == "\"C7b\" is not a chord: after \"C7b\" stands 5, 6, 9 or 13");
    CHECK(words("C7#7") == "\"C7#7\" is not a chord: after \"C7#\" stands 5, 9 or 11, not \"7\"");
    CHECK(words("C7(b9") ==
          "\"C7(b9\" is not a chord: after \"C7(b9\" stands the closing parenthesis");
    CHECK(words("C7b9b9") == "\"C7b9b9\" is not a chord: \"b9\" stands twice");
    CHECK(words("C7/H").find("stands a bass note, A to G, not \"H\"") != std::string::npos);
    CHECK(words("Cx").find("after \"C\" stands m, maj7, dim") != std::string::npos);
    CHECK(words("C-5").find("b5 or #5") != std::string::npos);
}

TEST_CASE("what a slash or a flat stands for does not depend on the sign it is written with") {
    CHECK(read_chord("E♭7♭9") == read_chord("Eb7b9"));
    CHECK(read_chord("F♯m7♭5") == read_chord("F#m7b5"));
    CHECK(read_chord("C−7") == read_chord("Cm7"));
    CHECK(read_chord("CΔ") == read_chord("Cmaj7"));
}

TEST_CASE("dominants and minor chords are known as such") {
    for (const char* symbol : {"C7", "C7#5", "C7sus4", "C7b9", "C13", "C11", "C7alt", "C9sus4"}) {
        CHECK(is_dominant(read_chord(symbol)));
    }
    for (const char* symbol : {"Cm7", "Cm7b5", "Cmaj7", "C6", "C", "Cdim7", "Cm6"}) {
        CHECK(!is_dominant(read_chord(symbol)));
    }
    CHECK(is_minor(read_chord("Cm6")));
    CHECK(is_minor(read_chord("Cm(maj7)")));
    CHECK(!is_minor(read_chord("Cm7b5")));
    CHECK(!is_minor(read_chord("C7#9")));
    CHECK(is_suspended(read_chord("C11")));
    CHECK(is_suspended(read_chord("Csus2")));
    CHECK(!is_suspended(read_chord("C5")));
}
