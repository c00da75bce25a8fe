#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/report/columns.hpp>
#include <compline/report/lead_sheet.hpp>

#include <string>
#include <vector>

using namespace compline;

namespace {

chart::Form form_of(const std::string& above, const std::string& sections) {
    return chart::unroll(chart::read_chart(above + tests::chart_text(sections), "t.yaml"));
}

chart::Form with_all() {
    return form_of(
        "form: [A x2, B, A ending 2]\nlead-in: {beats: 2, chords: C7}\nsegno: B\n"
        "to coda: \"A:2\"\nfine: \"A ending 1\"\n",
        "  A: {bars: F6 | D7, endings: {1: Gm7 C7, 2: Gm7 / / &C7 | F6! / / /&!}}\n"
        "  B: {key: D, meter: 3/4, tempo: 144, bars: Em7 | A7~4}\n"
        "  Coda: Bb6 | F6\n");
}

std::size_t count(const std::string& text, const std::string& what) {
    std::size_t found = 0;
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++found;
    return found;
}

}  // namespace

TEST_CASE("a lead sheet writes once what comes again, with its endings, its signs and the coda") {
    CHECK(report::lead_sheet(with_all()) == std::vector<std::string>{
                                                "   lead-in, 2 beats: C7",
                                                " 1 A    |:F6          | D7          |",
                                                "                  fine",
                                                " 3 A 1. | Gm7   C7   :|",
                                                " 6 A 2. | Gm7     &C7 | F6!     /&! |",
                                                "         key of D, 3/4, 144 bpm  segno",
                                                " 8 B    | Em7         | A7~4        |",
                                                "         key of F, 4/4, 120 bpm  to coda",
                                                "10 A    | F6          | D7          |",
                                                "12 A 2. | Gm7     &C7 | F6!     /&! |",
                                                "",
                                                "14 Coda | B♭6         | F6          |",
                                            });
}

TEST_CASE("with a capo the shapes stand below each row of the lead sheet, which is written once") {
    const auto form = form_of("form: [A x2, B]\n", "  A: F6 | D7\n  B: Gm7 | C7\n");
    const auto shapes = form_of("form: [A x2, B]\n", "  A: E6 | C#7\n  B: F#m7 | B7\n");
    const auto lines = report::lead_sheet(form, 60, &shapes);
    CHECK(lines == std::vector<std::string>{" 1 A |:F6      | D7     :|", "       E6        C♯7",
                                            " 5 B | Gm7     | C7      |", "       F♯m7      B7"});
}

TEST_CASE("an ending of several times has their numbers and a repeat sign, one named its own") {
    const auto form = form_of("form: [A x2, B, A ending 3]\n",
                              "  A: {bars: C, endings: {1-2: D, 3: E}}\n  B: F\n");
    const auto lines = report::lead_sheet(form);
    REQUIRE(lines.size() == 5);
    CHECK(lines[1].substr(lines[1].size() - 2) == ":|");
    CHECK(lines[4].substr(lines[4].size() - 2) == " |");
    const auto page = report::lead_sheet_html(form, report::Paper::a4);
    CHECK(count(page, ">1. 2.<") == 1);
    CHECK(count(page, ">3.<") == 1);
}

TEST_CASE("words stand over their bar, on the terminal and on the page") {
    const auto form = form_of("cues: {\"A:2\": drums break}\n", "  A: C | D\n");
    CHECK(report::lead_sheet(form).front().find("drums break") == 24);
    CHECK(count(report::lead_sheet_html(form, report::Paper::a4), ">drums break<") == 1);
}

TEST_CASE("what comes again without endings says how often from three times on") {
    const auto lines = report::lead_sheet(form_of("form: [A x3, B x2]\n", "  A: C | D\n  B: E\n"));
    CHECK(lines == std::vector<std::string>{" 1 A |:C               | D              :| x3",
                                            " 7 B |:E              :|"});
}

TEST_CASE("no line of a lead sheet is wider than the window") {
    for (const int columns : {30, 47, 80}) {
        for (const auto& line : report::lead_sheet(with_all(), columns)) {
            CHECK(report::columns_of(line) <= std::max(columns, 38));
        }
    }
}

TEST_CASE("the lead sheet's page is one page that needs nothing else, with a slash for each beat") {
    const auto page = report::lead_sheet_html(with_all(), report::Paper::a4);
    CHECK(count(page, "<svg ") == 1);
    CHECK(count(page, "<script") == 0);
    CHECK(count(page, "url(") == 0);
    CHECK(count(page, "http:") == 1);  // the name of SVG itself
    // Written bars: six of four beats in A and its endings, two of three, again four, and the coda.
    CHECK(count(page, "stroke-width=\"0.8\"") == 5 * 4 + 2 * 3 + 4 * 4 + 2 * 4);
    for (const char* words : {">1.<", ">2.<", ">fine<", ">to coda<", ">Coda<", ">N.C.<"}) {
        INFO(words);
        CHECK((count(page, words) > 0) == (std::string(words) != ">N.C.<"));
    }
}

TEST_CASE("a title and names with markup in them are text on the page") {
    auto form = form_of("", "  A: C\n");
    form.chart.title = "<b>& \"co\"";
    const auto page = report::lead_sheet_html(form, report::Paper::letter);
    CHECK(count(page, "<b>") == 0);
    CHECK(count(page, "&lt;b&gt;&amp;") >= 1);
    CHECK(count(page, "215.9mm") > 0);
}

TEST_CASE("optional chords stand in parentheses, on the terminal and on the page") {
    const auto form = form_of("", "  A: F6 (D7) | Gm7 C7\n");
    CHECK(report::lead_sheet(form).front().find("(D7)") != std::string::npos);
    const auto page = report::lead_sheet_html(form, report::Paper::a4);
    CHECK(count(page, ">(D7)<") == 1);
    CHECK(count(page, ">F6<") == 1);
}

TEST_CASE("a chord that may be left out stands anew behind the same one that is meant") {
    const auto form = form_of("", "  A: D7 | (D7) | D7 | D7\n");
    const auto page = report::lead_sheet_html(form, report::Paper::a4);
    CHECK(count(page, ">D7<") == 2);
    CHECK(count(page, ">(D7)<") == 1);
}

TEST_CASE("a bar that is written once has the words of each time, on the terminal and the page") {
    const auto form =
        form_of("form: [A x2]\ncues: {\"A:1\": soft, \"A@2:1\": loud}\n", "  A: C | D\n");
    CHECK(report::lead_sheet(form).front().find("1st time: soft; 2nd time: loud") == 6);
    const auto page = report::lead_sheet_html(form, report::Paper::a4);
    CHECK(count(page, ">1st time: soft; 2nd time: loud<") == 1);
}

TEST_CASE("words over a row that find no room side by side stand in lines of their own") {
    const std::string words = "a break of drums alone, then";
    const auto form =
        form_of("cues: {\"A:1\": \"" + words + "\", \"A:2\": \"" + words + "\"}\n", "  A: C | D\n");
    const auto lines = report::lead_sheet(form, 40);
    REQUIRE(lines.size() == 3);
    for (const auto& line : lines) CHECK(report::columns_of(line) <= 40);
    CHECK(count(lines[0] + lines[1], words) == 2);
}

TEST_CASE("the bracket of an ending that is longer than a row goes on in the next one") {
    const auto form =
        form_of("form: [A x2]\n", "  A: {bars: C, endings: {1: D | E | F | G | A, 2: D | E}}\n");
    const auto page = report::lead_sheet_html(form, report::Paper::a4);
    // Two brackets of two lines, one that goes on, and the box of the letter.
    CHECK(count(page, "stroke-width=\"0.3\"") == 2 * 2 + 1 + 1);
}

TEST_CASE("a row that begins with an ending names its chord though the bar before had it") {
    const auto form =
        form_of("form: [A x2]\n", "  A: {bars: C | D, endings: {1: D | E, 2: D | F}}\n");
    CHECK(count(report::lead_sheet_html(form, report::Paper::a4), ">D<") == 2);
}

TEST_CASE("behind a section of another key and tempo the next one says the chart's own again") {
    const auto form = form_of("form: [A, B, C, A]\n",
                              "  A: F6\n  B: {key: D, tempo: 144, bars: D6}\n"
                              "  C: {tempo: rubato, bars: C7}\n");
    const auto lines = report::lead_sheet(form);
    REQUIRE(lines.size() == 7);
    CHECK(lines[1] == "      key of D, 144 bpm");
    CHECK(lines[3] == "      key of F, rubato");
    CHECK(lines[5] == "      a tempo");
    const auto page = report::lead_sheet_html(form, report::Paper::a4);
    for (const char* words : {">key of D, 144 bpm<", ">key of F, rubato<", ">a tempo<"}) {
        CHECK(count(page, words) == 1);
    }
}

TEST_CASE("behind a section in a manner of its own the next one says the chart's again") {
    const auto form =
        form_of("feel: straight\nform: [A, B, A, C, A]\n",
                "  A: F6\n  B: {feel: bossa half-time, drums: brushes, rhythm: four, bars: D6}\n"
                "  C: {phrasing: breathing, bass: roots, bars: C7}\n");
    const auto lines = report::lead_sheet(form);
    REQUIRE(lines.size() == 9);
    CHECK(lines[1] == "      half-time, bossa, brushes, comp four");
    CHECK(lines[3] == "      end of half-time, straight, comp free");
    CHECK(lines[5] == "      roots, breathing");
    CHECK(lines[7] == "      straight, even");
}

TEST_CASE("the coda says what is new behind the bar from which it is reached") {
    const auto above = "form: [A, B]\nto coda: B\n";
    const auto sections = "  A: F6\n  B: {key: D, bars: D6}\n  Coda: F6\n";
    CHECK(report::lead_sheet(form_of(above, sections)).size() == 6);
    const auto away = form_of("form: [A, B, A]\nto coda: B\n", sections);
    CHECK(report::lead_sheet(away)[6] == "         key of F");
}

TEST_CASE("cues that are longer than their bars share the row under the staff") {
    const std::string longest(40, 'w');
    const auto form = form_of(
        "form: [A x2]\ncues: {\"A@2:1\": loud and with all of the horns, "
        "\"A:2\": bass alone, \"A:3\": \"drums, as if far away\"}\n",
        "  A: C | D | E | F\n");
    const auto page = report::lead_sheet_html(form, report::Paper::a4);
    CHECK(count(page, ">2nd time: loud and with all of the horns<") == 1);
    CHECK(count(page, ">1st time: bass alone<") == 1);
    // Where nothing helps they are cut.
    const auto crowded = form_of("cues: {\"A:1\": " + longest + ", \"A:2\": " + longest +
                                     ", \"A:3\": " + longest + ", \"A:4\": " + longest + "}\n",
                                 "  A: C | D | E | F\n");
    CHECK(count(report::lead_sheet_html(crowded, report::Paper::a4), "…<") == 4);
}
