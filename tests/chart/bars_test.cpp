#include "chart/support.hpp"
#include "support/catch.hpp"

using namespace compline;
using tests::bars_read;
using tests::chart_of;
using tests::chart_text;
using tests::problems_of;

namespace {

/// The one problem of a section A with these bars in a block scalar's only line, which starts in
/// line 7, column 5.
std::string problem_of_bars(const std::string& line, const std::string& meter = "4/4") {
    const auto problems = problems_of(chart_text("  A: |\n    " + line + "\n", meter));
    return problems.size() == 1 ? problems.front() : fmt::format("{} problems", problems.size());
}

bool begins(const std::string& text, const std::string& start) {
    return text.substr(0, start.size()) == start;
}

}  // namespace

TEST_CASE("a chord alone lasts the whole bar") {
    CHECK(bars_read({"F6 | D7"}) == "F6 4 | D7 4");
    CHECK(bars_read({"F6 | D7"}, "3/4") == "F6 3 | D7 3");
}

TEST_CASE("two chords share a bar of four beats, three a bar of three") {
    CHECK(bars_read({"Gm7 C7"}) == "Gm7 2 C7 2");
    CHECK(bars_read({"F6 D7 Gm7 C7"}) == "F6 1 D7 1 Gm7 1 C7 1");
    CHECK(bars_read({"F6 Gm7 C7"}, "3/4") == "F6 1 Gm7 1 C7 1");
}

TEST_CASE("in five beats two chords have three and two, five have one each") {
    CHECK(bars_read({"Dm7"}, "5/4") == "Dm7 5");
    CHECK(bars_read({"Dm7 A7"}, "5/4") == "Dm7 3 A7 2");
    CHECK(bars_read({"Dm7 / A7 / /"}, "5/4") == "Dm7 2 A7 3");
    CHECK(bars_read({"F6 D7 Gm7 C7 F6"}, "5/4") == "F6 1 D7 1 Gm7 1 C7 1 F6 1");
}

TEST_CASE("in six beats two chords have three each, three have two") {
    CHECK(bars_read({"Dm7"}, "6/4") == "Dm7 6");
    CHECK(bars_read({"Dm7 A7"}, "6/4") == "Dm7 3 A7 3");
    CHECK(bars_read({"F6 D7 Gm7"}, "6/4") == "F6 2 D7 2 Gm7 2");
    CHECK(bars_read({"F6 / / / / C7 | %"}, "6/4") == "F6 5 C7 1 | F6 5 C7 1");
}

TEST_CASE("a slash is one more beat of the chord before it") {
    CHECK(bars_read({"F6 / D7 /"}) == "F6 2 D7 2");
    CHECK(bars_read({"F6 / / D7"}) == "F6 3 D7 1");
    CHECK(bars_read({"F6 D7 / /"}) == "F6 1 D7 3");
    CHECK(bars_read({"F6 / C7"}, "3/4") == "F6 2 C7 1");
}

TEST_CASE("a slash that opens a bar goes on with the chord of the bar before") {
    CHECK(bars_read({"F6 | / / D7 /"}) == "F6 4 | F6 2 D7 2");
    CHECK(bars_read({"F6 / D7 / | % | / / / C7"}) == "F6 2 D7 2 | F6 2 D7 2 | D7 3 C7 1");
    CHECK(bars_read({"F6 / / N.C.", "/ / C7 /"}) == "F6 3 N.C. 1 | N.C. 2 C7 2");
}

TEST_CASE("equal neighbours in a bar are one slot") {
    CHECK(bars_read({"F6 / / /"}) == "F6 4");
    CHECK(bars_read({"F6 F6"}) == "F6 4");
    CHECK(bars_read({"Bb-7b5 Bbm7b5 B♭ø E♭7"}) == "Bbm7b5 3 Eb7 1");
    CHECK(bars_read({"N.C. NC"}) == "N.C. 4");
    CHECK(bars_read({"F6 D7 F6 F6"}) == "F6 1 D7 1 F6 2");
}

TEST_CASE("a simile repeats the bar before it, also over a line end and after a simile") {
    CHECK(bars_read({"F6 D7 | %", "% | C7"}) == "F6 2 D7 2 | F6 2 D7 2 | F6 2 D7 2 | C7 4");
}

TEST_CASE("a line end is a bar line, and bar lines at the ends of a line are optional") {
    const std::string expected = "F6 4 | D7 4 | Gm7 4 | C7 4";
    CHECK(bars_read({"F6 | D7", "Gm7 | C7"}) == expected);
    CHECK(bars_read({"| F6 | D7 |", "| Gm7 | C7 |"}) == expected);
    CHECK(bars_read({"|F6|D7|", "", "  Gm7  |C7  "}) == expected);
    CHECK(bars_read({"F6|D7|Gm7|C7"}) == expected);
}

TEST_CASE("slash chords and 6/9 are chords, not beats") {
    CHECK(bars_read({"C7/E | F6/9 | C6/9/E Bb/D"}) == "C7/E 4 | F6/9 4 | C6/9/E 2 Bb/D 2");
}

TEST_CASE("a section may be a text on one line, a block scalar or a list of either") {
    const auto read = [](const std::string& sections) {
        const auto chart = chart::read_chart(chart_text(sections), "t.yaml");
        return tests::bars_in_words(chart.sections.front());
    };
    const std::string expected = "F6 4 | D7 4 | Gm7 4 | C7 4";
    CHECK(read("  A: F6 | D7 | Gm7 | C7\n") == expected);
    CHECK(read("  A: \"F6 | D7 | Gm7 | C7\"\n") == expected);
    CHECK(read("  A: 'F6 | D7 | Gm7 | C7'\n") == expected);
    CHECK(read("  A:\n    - F6 | D7\n    - \"| Gm7 | C7 |\"\n") == expected);
    CHECK(read("  A: [F6 | D7, Gm7, \"C7\"]\n") == expected);
    CHECK(read("  A:\n  - F6\n  - |\n    D7 | Gm7\n    C7\n") == expected);
    CHECK(read("  A: |2-\n      F6 | D7\n    Gm7 | C7") == expected);
    CHECK(read("  A: |+  # changes\n    F6 | D7\n\n    Gm7 | C7\n\n\n") == expected);
    CHECK(read("  A: \"F6 | D7\\nGm7 | C7\"\n") == expected);
}

TEST_CASE("slots keep their place in the bar") {
    const auto chart = chart_of({"F6 / / D7"});
    const auto& slots = chart.sections.front().bars.front().slots;
    REQUIRE(slots.size() == 2);
    CHECK(slots[0].start == time::Ticks(0));
    CHECK(slots[0].length == time::Ticks(2880));
    CHECK(slots[1].start == time::Ticks(2880));
    CHECK(slots[1].length == time::Ticks(960));
}

TEST_CASE("an empty bar in the middle of a line is no bar") {
    CHECK(problem_of_bars("F6 | | C7") ==
          "7:10: an empty bar: write a chord, % to repeat the bar before, or N.C.; a double bar "
          "line is written as one");
    CHECK(begins(problem_of_bars("| | C7"), "7:7: an empty bar"));
    CHECK(begins(problem_of_bars("F6 || C7"), "7:9: an empty bar"));
    CHECK(begins(problem_of_bars("F6 ||"), "7:9: an empty bar"));
}

TEST_CASE("chords that do not share the bar evenly are refused, with what would fit") {
    CHECK(problem_of_bars("F6 D7 G7") ==
          "7:5: 3 chords do not share a bar of 4/4 evenly: write 1, 2 or 4, with / for each beat a "
          "chord goes on");
    CHECK(problem_of_bars("F6 D7", "3/4") ==
          "7:5: 2 chords do not share a bar of 3/4 evenly: write 1 or 3, with / for each beat a "
          "chord goes on");
    CHECK(problem_of_bars("F6 D7 G7 C7 F6") ==
          "7:17: 5 chords do not share a bar of 4/4 evenly: write 1, 2 or 4, with / for each beat "
          "a chord goes on, or a bar line is missing");
}

TEST_CASE("what fits a bar of five or six is said as for one of four") {
    CHECK(problem_of_bars("F6 D7 G7", "5/4") ==
          "7:5: 3 chords do not share a bar of 5/4 evenly: write 1, 2 or 5, with / for each beat a "
          "chord goes on");
    CHECK(problem_of_bars("F6 D7 G7 C7", "6/4") ==
          "7:5: 4 chords do not share a bar of 6/4 evenly: write 1, 2, 3 or 6, with / for each "
          "beat a chord goes on");
    CHECK(begins(problem_of_bars("F6 / G7 /", "5/4"),
                 "7:8: a / is one beat, so this bar of 5/4 needs 5 chords and slashes, not 4"));
}

TEST_CASE("a bar with slashes has one sign a beat") {
    CHECK(problem_of_bars("F6 / D7") ==
          "7:8: a / is one beat, so this bar of 4/4 needs 4 chords and slashes, not 3 (a slash "
          "chord has no blanks: C7/E)");
    CHECK(begins(problem_of_bars("F6 /"), "7:8: a / is one beat"));
    CHECK(begins(problem_of_bars("F6 | /"), "7:10: a / is one beat"));
}

TEST_CASE("a section cannot begin with what repeats something before it") {
    CHECK(problem_of_bars("% | F6") ==
          "7:5: % in the first bar of a section has no bar before it to repeat: write the chord");
    CHECK(begins(problem_of_bars("/ / F6 /"), "7:5: / in the first bar of a section"));
    CHECK(begins(problem_of_bars("&F6 C7"), "7:5: & in the first bar of a section"));
    // The section before does not count: the form may put any section before this one.
    const auto problems =
        problems_of(chart_text("  A: F6\n  B: \"%\"\n  C: / C7 / /\n  D: H7\n  E: / C7 / /\n"));
    REQUIRE(problems.size() == 4);
    CHECK(begins(problems[0], "7:7: % in the first bar of a section"));
    CHECK(begins(problems[1], "8:6: / in the first bar of a section"));
    CHECK(begins(problems[2], "9:6: \"H7\" is not a chord"));
    CHECK(begins(problems[3], "10:6: / in the first bar of a section"));
}

TEST_CASE("a simile stands alone in its bar") {
    CHECK(problem_of_bars("F6 | C7 %") ==
          "7:13: % repeats a whole bar and stands alone in its own: for a beat on the same chord "
          "write /");
}

TEST_CASE("a wrong bar is reported once, not again where it is repeated") {
    CHECK(begins(problem_of_bars("H7 | % | / / C7 /"), "7:5: \"H7\" is not a chord"));
    CHECK(begins(problem_of_bars("F6 C7 % | / / C7 / | %"), "7:11: % repeats a whole bar"));
}

TEST_CASE("other notation that players know is named with what to write for it") {
    CHECK(problem_of_bars("F6 | n.c.") ==
          "7:10: \"n.c.\" is not a chord: where nobody plays write N.C.");
    CHECK(problem_of_bars("F6 |: C7") ==
          "7:9: \":\" is not a chord: repeat signs are not read, "
          "name the section twice in `form`");
    CHECK(problem_of_bars("F6 | %%") ==
          "7:10: \"%%\" is not a chord: one % repeats the one bar before it");
    CHECK(problem_of_bars("F6 - C7 -").substr(0, 2) == "2 ");
    for (const std::string number : {"1.", "[2.", "1-3."}) {
        CHECK(problem_of_bars("F6 | " + number + " C7") ==
              "7:10: \"" + number +
                  "\" is not a chord: endings have a key of their section, such as endings: {1: "
                  "Gm7 C7, 2: F6}");
    }
    CHECK(begins(problem_of_bars("F6 # the turnaround"), "7:8: a # that belongs to no chord"));
}

TEST_CASE("a wrong chord is found at its very character, whatever stands before it") {
    CHECK(begins(problem_of_bars("B♭7 | E♭maj7 | Hm7"), "7:20: \"Hm7\" is not a chord"));
    CHECK(begins(problem_of_bars("B♭7 | E♭maj7x"), "7:17: \"E♭maj7x\""));
    CHECK(begins(problem_of_bars("B♭7 | C7/H"), "7:14: \"C7/H\""));
    const auto third_bar_of_second_line =
        problems_of(chart_text("  A: F6\n  B: |\n     F6 | C7\n\n     B♭ | E♭ | Q7\n  C: C7\n"));
    REQUIRE(third_bar_of_second_line.size() == 1);
    CHECK(begins(third_bar_of_second_line.front(), "10:16: \"Q7\" is not a chord"));
}

TEST_CASE("a wrong chord in quotes is found at its character, or at the quotes behind escapes") {
    const auto problem = [](const std::string& text) {
        return problems_of(chart_text("  A:\n    - F6\n    - " + text + "\n")).front();
    };
    CHECK(begins(problem("B♭ | H7"), "8:12: \"H7\""));
    CHECK(begins(problem("\"B♭ | H7\""), "8:13: \"H7\""));
    CHECK(begins(problem("'B♭ | H7'"), "8:13: \"H7\""));
    CHECK(begins(problem("\"B\\u266d | H7\""), "8:7: \"H7\""));
}

TEST_CASE("what cannot be printed never reaches the message") {
    CHECK(begins(problem_of_bars("F6 | C7\u00A0"),
                 "7:10: \"C7<U+00A0>\" is not a chord: a chord is a short symbol"));
    const auto escape = problems_of(chart_text("  A: \"C7\\e[31m\"\n")).front();
    CHECK(begins(escape, "6:6: \"C7<U+001B>[31m\" is not a chord"));
    const auto lengthy = problem_of_bars("C" + std::string(5000, '7'));
    CHECK(begins(lengthy, "7:5: \"C777"));
    CHECK(lengthy.size() < 200);
}

TEST_CASE("of a bar with far too many chords only the first few are read") {
    std::string line;
    for (int i = 0; i < 1000; ++i) line += "H ";
    const auto problems = problems_of(chart_text("  A: |\n    " + line + "\n"));
    REQUIRE(problems.size() == 17);
    CHECK(begins(problems[4], "7:13: 1000 chords do not share a bar of 4/4 evenly"));
}

TEST_CASE("with a wrong meter the chords are still checked, and the beats are not") {
    const auto problems = problems_of(chart_text("  A: F6 D7 G7 | H7! | F6! /\n", "7/4"));
    REQUIRE(problems.size() == 2);
    CHECK(begins(problems[0], "3:8: \"7/4\" is not a meter of a chart: write 2/2, 2/4, 3/4"));
    CHECK(begins(problems[1], "6:17: \"H7\""));
}
