#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/chart/pins.hpp>
#include <compline/chart/write_chart.hpp>
#include <compline/text/bad_input.hpp>

#include <string>
#include <vector>

using namespace compline;
using tests::problems_of;

namespace {

/// A tune of 12 bars, A and B and A, with these voicings.
std::string with(const std::string& voicings) {
    return "title: T\nkey: C\ntempo: 120\nform: [A, B, A]\nsections:\n  A: |\n    Dm7 | G7 | C6 | "
           "C6 A7\n  B: |\n    Dm7 G7 | C6 | N.C. | G7 / / Db7\nvoicings: " +
           voicings + "\n";
}

chart::Form form_with(const std::string& voicings) {
    return chart::unroll(chart::read_chart(with(voicings), "t.yaml"));
}

/// Frets as a line, lowest string first: "x 10 12".
std::string in_words(const std::vector<std::optional<int>>& frets) {
    std::string text;
    for (const auto& fret : frets) {
        text += text.empty() ? "" : " ";
        text += fret ? std::to_string(*fret) : "x";
    }
    return text;
}

std::string read(const std::string& shape) { return in_words(chart::read_shape_text(shape)); }

/// What is wrong with a shape.
std::string wrong(const std::string& shape) {
    try {
        return read(shape);
    } catch (const text::BadInput& error) {
        return error.what();
    }
}

/// The shape asked for there; "" when none is.
std::string asked(const chart::Form& form, int bar, const std::string& chord) {
    const auto* const pin = chart::pin_for(form, bar, harmony::read_chord(chord));
    return pin == nullptr ? "" : in_words(pin->frets);
}

/// The only problem of these voicings.
std::string problem(const std::string& voicings) {
    const auto problems = problems_of(with(voicings));
    return problems.size() == 1 ? problems.front() : fmt::format("{} problems", problems.size());
}

constexpr const char* how =
    ": write a fret or x for each string from the lowest to string 1, such as x5x56x, with hyphens "
    "when a fret has two digits, such as x-10-12-11-x-x";

}  // namespace

TEST_CASE("a shape is read from the lowest string to string 1") {
    CHECK(read("x5x56x") == "x 5 x 5 6 x");
    CHECK(read("X02210") == "x 0 2 2 1 0");
    CHECK(read("0x22") == "0 x 2 2");
    CHECK(read("355433") == "3 5 5 4 3 3");
    CHECK(read("x-10-12-11-x-x") == "x 10 12 11 x x");
    CHECK(read("3-x-3-4-4-x") == "3 x 3 4 4 x");
}

TEST_CASE("shapes of four to eight strings are read") {
    CHECK(read("2010") == "2 0 1 0");
    CHECK(read("x3x34xx") == "x 3 x 3 4 x x");
    CHECK(read("xx3x34xx") == "x x 3 x 3 4 x x");
    CHECK(wrong("3x3") ==
          "\"3x3\" is not a shape: 3 strings where 4 to 8 were expected" + std::string(how));
    CHECK(wrong("x10x1011xx") ==
          "\"x10x1011xx\" is not a shape: 10 strings where 4 to 8 were expected" +
              std::string(how));
    CHECK(wrong("").starts_with("\"\" is not a shape: 0 strings where"));
}

TEST_CASE("what is no fret is named, and how a shape is written") {
    CHECK(wrong("x5h56x") == "\"x5h56x\" is not a shape: \"h\" is no fret" + std::string(how));
    CHECK(wrong("x 5 x 5 6 x").starts_with("\"x 5 x 5 6 x\" is not a shape: \" \" is no fret:"));
    CHECK(wrong("x--12-11-x-x").find("a fret is missing beside a hyphen") != std::string::npos);
    CHECK(wrong("-x-10-11-x-x").find("a fret is missing beside a hyphen") != std::string::npos);
    CHECK(wrong("x-10-12-11-x-").find("a fret is missing beside a hyphen") != std::string::npos);
    CHECK(wrong("x-1o-12-11-x-x").find("\"1o\" is no fret") != std::string::npos);
    CHECK(wrong("x-37-x-36-x-x") ==
          "\"x-37-x-36-x-x\" is not a shape: there is no fret 37, the highest is 36");
    CHECK(read("x-36-x-36-x-x") == "x 36 x 36 x x");
}

TEST_CASE("a shape of which no string sounds is none") {
    CHECK(wrong("xxxxxx") ==
          "\"xxxxxx\" is not a shape: no string sounds, one must have a fret at least");
}

TEST_CASE("a chart may say how chords are played, everywhere, in bars, or a chord in bars") {
    const auto form = form_with(
        "{Dm7: x5x56x, \"9\": x-10-12-11-x-x, \"A:2 G7\": 3x344x, A@2:3: x3x24x, 8 D♭7: 355433}");
    const auto& pins = form.chart.voicings;
    REQUIRE(pins.size() == 5);
    CHECK(pins[0].bars.empty());
    CHECK(pins[0].chord == harmony::read_chord("Dm7"));
    CHECK(in_words(pins[0].frets) == "x 5 x 5 6 x");
    CHECK(pins[1].bars == "9");
    CHECK(!pins[1].chord);
    CHECK(pins[2].bars == "A:2");
    CHECK(pins[2].chord == harmony::read_chord("G7"));
    CHECK(pins[3].bars == "A@2:3");
    CHECK(pins[4].chord == harmony::read_chord("Db7"));
    CHECK(in_words(pins[4].frets) == "3 5 5 4 3 3");
}

TEST_CASE("a pin holds where it says and nowhere else") {
    const auto form = form_with("{Dm7: x5x56x, \"10-11\": 3x344x, \"B:1 G7\": xx3433}");
    CHECK(asked(form, 1, "Dm7") == "x 5 x 5 6 x");
    CHECK(asked(form, 5, "Dm7") == "x 5 x 5 6 x");
    CHECK(asked(form, 9, "D-7") == "x 5 x 5 6 x");
    CHECK(asked(form, 5, "G7") == "x x 3 4 3 3");
    CHECK(asked(form, 8, "G7").empty());
    CHECK(asked(form, 10, "G7") == "3 x 3 4 4 x");
    CHECK(asked(form, 11, "C6") == "3 x 3 4 4 x");
    CHECK(asked(form, 12, "C6").empty());
    CHECK(asked(form_with("{Dm7: x5x56x}"), 2, "G7").empty());
}

TEST_CASE("the closest pin wins, wherever it stands in the file") {
    const auto closest = [](const std::string& voicings) {
        return asked(form_with(voicings), 5, "G7");
    };
    const std::string everywhere = "G7: 3xxxxx";
    const std::string bars = "\"5\": 5xxxxx";
    const std::string both = "\"5-6 G7\": 7xxxxx";
    const std::string fewer = "\"5 G7\": 8xxxxx";
    CHECK(closest("{" + everywhere + ", " + bars + "}") == "5 x x x x x");
    CHECK(closest("{" + bars + ", " + everywhere + "}") == "5 x x x x x");
    CHECK(closest("{" + both + ", " + bars + ", " + everywhere + "}") == "7 x x x x x");
    CHECK(closest("{" + everywhere + ", " + bars + ", " + both + "}") == "7 x x x x x");
    CHECK(closest("{" + fewer + ", " + both + "}") == "8 x x x x x");
    CHECK(closest("{\"4-5\": 1xxxxx, \"5-6\": 2xxxxx}") == "2 x x x x x");
}

TEST_CASE("pins may stand on lines of their own, with comments") {
    const auto form =
        form_with("\n  Dm7: x5x56x   # a shell\n  \"B:4 G7\": 'x-10-9-10-x-x'\n  12 A7: 5x56xx");
    CHECK(asked(form, 1, "Dm7") == "x 5 x 5 6 x");
    CHECK(asked(form, 8, "G7") == "x 10 9 10 x x");
    CHECK(asked(form, 12, "A7") == "5 x 5 6 x x");
    CHECK(asked(form, 4, "A7").empty());
}

TEST_CASE("a section whose name has blanks can be named in a pin") {
    const auto form = chart::unroll(
        chart::read_chart("title: T\nkey: C\ntempo: 120\nsections: {Intro 2: Dm7 | G7}\n"
                          "voicings: {\"Intro 2:2\": 3x344x, \"Intro 2:1-2  Dm7\": x5x56x}\n",
                          "t.yaml"));
    CHECK(asked(form, 2, "G7") == "3 x 3 4 4 x");
    CHECK(asked(form, 1, "Dm7") == "x 5 x 5 6 x");
}

TEST_CASE("a pin for a chord that is none or not in the tune is refused") {
    CHECK(problem("{Hm7: x5x56x}").starts_with("10:12: "));
    CHECK(problem("{Em7: x5x56x}") ==
          "10:12: there is no Em7 in the tune: write one of its chords, or delete this");
    CHECK(problem("{\"2 Gx\": x5x56x}").starts_with("10:16: "));
    CHECK(problem("{\"2  Dm7\": x5x56x}") == "10:16: bar 2 has no Dm7: the chord there is G7");
    CHECK(problem("{A:3-4 Dm7: x5x56x}") ==
          "10:18: bars 3-4 have no Dm7: the chords there are C6 and A7");
    CHECK(problem("{N.C.: x5x56x}").starts_with("10:12: "));
}

TEST_CASE("a pin whose key goes over several lines is quoted without them", "[chart]") {
    const auto message = problem("{\"Dm7\\n| G7\": x5x56x}");
    INFO(message);
    CHECK(message.find("is not a chord") != std::string::npos);
    CHECK(message.find('\n') == std::string::npos);
}

TEST_CASE("a pin for bars that are not there, or in which nobody plays, is refused") {
    CHECK(problem("{\"13\": x5x56x}") == "10:13: there is no bar 13: the form has 12 bars");
    CHECK(problem("{A@3:1: x5x56x}") == "10:12: there is no A@3: the form has A 2 times");
    CHECK(problem("{A#2:1: x5x56x}") == "10:12: A#2 is written A@2 now");
    CHECK(problem("{\"A#2:3 Dm7\": x5x56x}") == "10:13: A#2 is written A@2 now");
    CHECK(problem("{\"Z:1 G7\": x5x56x}") ==
          "10:13: there is no section \"Z\" in the form: it has A and B");
    CHECK(problem("{B:3: x5x56x}") == "10:12: bar 7 has no chord: nothing is played there");
}

TEST_CASE(
    "the name of a section alone is taken for a chord, and the way to name its bars is shown") {
    for (const std::string name : {"B", "A@2"}) {
        CHECK(problem("{" + name + ": x5x56x}") ==
              fmt::format("10:12: \"{}\" is no chord of the tune: for bars of a section write "
                          "which, such as {}:1-4",
                          name, name));
    }
}

TEST_CASE("a sharp behind the letter of a section makes a chord of it") {
    CHECK(problem("{A#2: x5x56x}").starts_with("10:12: there is no A♯add9 in the tune"));
    CHECK(problem("{B#7: x5x56x}").starts_with("10:12: there is no B♯7 in the tune"));
}

TEST_CASE("malformed shapes are refused where they stand") {
    CHECK(problem("{Dm7: x5y56x}") ==
          "10:17: \"x5y56x\" is not a shape: \"y\" is no fret" + std::string(how));
    CHECK(problem("{Dm7: 5.5}") ==
          "10:17: \"5.5\" is not a shape: \".\" is no fret" + std::string(how));
    CHECK(problem("{Dm7: [x, 5, x, 5]}") == "10:17: a list where one value was expected");
    CHECK(problem("{Dm7: }") == "10:17: nothing where one value was expected");
}

TEST_CASE("what is no map of voicings is refused with an example") {
    CHECK(problem("x5x56x") ==
          "10:11: a text where voicings were expected: write each as where and shape, such as "
          "{Dm7: x5x56x, \"9\": 3x344x}");
    CHECK(problem("[x5x56x]").starts_with("10:11: a list where voicings were expected"));
    CHECK(problem("{[Dm7]: x5x56x}").find("a list cannot say where a voicing belongs") !=
          std::string::npos);
    CHECK(problem("{\"\": x5x56x}").starts_with("10:13: nothing says where this belongs"));
}

TEST_CASE("two pins for the same place are refused, also in other words") {
    CHECK(problem("{Dm7: x5x56x, Dm7: 3x344x}") ==
          "10:25: \"Dm7\" stands here a second time: the first is in line 10, keep one of them");
    CHECK(problem("{Dm7: x5x56x, D-7: 3x344x}") ==
          "10:25: \"D-7\" is in line 10 already, in other words: keep one of them");
    CHECK(problem("{\"9\": x5x56x, A@2:1: 3x344x}") ==
          "10:25: \"A@2:1\" is in line 10 already, in other words: keep one of them");
    CHECK(problems_of(with("{\"9\": x5x56x, \"9 Dm7\": 3x344x, Dm7: 3x344x, 1-12 Dm7: 3x344x}"))
              .empty());
}

TEST_CASE("all problems of the voicings are named in one run, and other problems come first") {
    CHECK(problems_of(with("{Em7: x5y56x, \"20\": 3}")).size() == 4);
    auto text = with("{Em7: x5x56x, Hm7: x5y56x}");
    text.replace(text.find("G7"), 2, "H7");
    const auto problems = problems_of(text);  // nobody knows which chords the tune has
    REQUIRE(problems.size() == 3);
    CHECK(problems[0].starts_with("7:"));
    CHECK(problems[1].starts_with("10:25: "));
    CHECK(problems[2].starts_with("10:30: "));
}

TEST_CASE("how chords are to be played does not belong to a chart's hash") {
    CHECK(chart::chart_hash(form_with("{Dm7: x5x56x}").chart) ==
          chart::chart_hash(form_with("{}").chart));
}

TEST_CASE("an ending is named in voicings as everywhere, alone and with a chord") {
    const auto read_with = [](const std::string& voicings) {
        return chart::unroll(
            chart::read_chart("title: T\nkey: F\ntempo: 120\nform: [B x2]\nvoicings: {" + voicings +
                                  "}\nsections:\n  B: {bars: F, endings: {1: F C7, 2: F C7}}\n",
                              "t.yaml"));
    };
    const auto bars = read_with("B ending 2: x33211");
    CHECK(asked(bars, 2, "F").empty());
    CHECK(asked(bars, 4, "F") == "x 3 3 2 1 1");
    const auto chord = read_with("B ending 2 C7: x32310");
    CHECK(asked(chord, 4, "F").empty());
    CHECK(asked(chord, 4, "C7") == "x 3 2 3 1 0");
    CHECK(asked(chord, 2, "C7").empty());
    const auto again = chart::unroll(chart::read_chart(chart::write_chart(chord.chart), "t.yaml"));
    CHECK(again.chart.voicings == chord.chart.voicings);
}
