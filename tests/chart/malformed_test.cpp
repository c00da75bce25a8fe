#include "chart/support.hpp"
#include "support/catch.hpp"

#include <string>
#include <vector>

using compline::tests::problems_of;

namespace {

struct Malformed {
    std::string what;  ///< the mistake, in the player's words
    std::string text;
    std::vector<std::string> problems;  ///< the beginning of each, all of them, in order
};

const std::string head = "title: T\nkey: F\ntempo: 120\n";
const std::string bars = "sections: {A: F6}\n";

std::vector<Malformed> malformed_charts() {
    return {
        {"an empty file", "", {"1:1: nothing where a chart was expected"}},
        {"only a comment", "# later\n", {"1:1: nothing where a chart was expected"}},
        {"a list", "- F6\n- C7\n", {"1:1: a list where a chart was expected"}},
        {"plain prose", "F6 | C7\n", {"1:1: a text where a chart was expected"}},
        {"everything missing",
         "feel: swing\n",
         {"1:1: the chart has no \"title\": add a line such as `title: Our Tune`",
          "1:1: the chart has no \"key\": add a line such as `key: F`",
          "1:1: the chart has no \"tempo\": add a line such as `tempo: 132`",
          "1:1: the chart has no \"sections\": add a line such as `sections: {A: \"F6 | D7 | Gm7 | "
          "C7\"}`"}},
        {"a mistyped key",
         head + "metre: 3/4\n" + bars,
         {"4:1: \"metre\" is not a key of a chart: did you mean meter?"}},
        {"a key with a capital",
         "Title: T\nkey: F\ntempo: 120\n" + bars,
         {"1:1: \"Title\" is not a key of a chart: did you mean title?",
          "1:1: the chart has no \"title\""}},
        {"a key in capitals",
         head + "FEEL: swing\n" + bars,
         {"4:1: \"FEEL\" is not a key of a chart: did you mean feel?"}},
        {"a key that no chart has",
         head + "composer: X\n" + bars,
         {"4:1: \"composer\" is not a key of a chart: the keys are title, key, meter, tempo, feel, "
          "drums, bass, swing, phrasing, rhythm, lead-in, form, segno and 6 more"}},
        {"a list as a key",
         head + "? [A, B]\n: F6\n" + bars,
         {"4:3: a list where a key of a chart was expected: the keys are title"}},
        {"a key twice",
         head + "key: G\n" + bars,
         {"4:1: \"key\" stands here a second time: the first is in line 2, keep one of them"}},
        {"a section twice",
         head + "sections:\n  A: F6\n  B: C7\n  A: D7\nform: [C]\n",
         {"7:3: \"A\" stands here a second time: the first is in line 5, keep one of them",
          "8:8: there is no section \"C\": the sections are A and B"}},
        {"keys without values",
         "title: ~\nkey:\ntempo: null\nsections:\n",
         {"1:1: \"title\" has no value: write one behind the colon", "2:1: \"key\" has no value",
          "3:1: \"tempo\" has no value", "4:1: \"sections\" has no value"}},
        {"a list where one value belongs",
         "title: [T]\nkey: {F: 1}\ntempo: 120\n" + bars,
         {"1:8: a list where one value was expected",
          "2:6: a map of keys where one value was expected"}},
        {"sections as a text",
         head + "sections: F6 | D7\n",
         {"4:11: a text where the sections were expected: write each as a name and its bars, such "
          "as `A: F6 | D7 | Gm7 | C7`"}},
        {"no section at all", head + "sections: {}\n", {"4:11: there is no section"}},
        {"sections without bars",
         head + "sections:\n  A:\n  B: \"\"\n  C: []\n  D: |\n  E: \"|\"\n",
         {"5:3: section \"A\" has no bars: write its chords between bar lines, such as F6 | D7 | "
          "Gm7 | C7",
          "6:3: section \"B\" has no bars", "7:3: section \"C\" has no bars",
          "8:3: section \"D\" has no bars", "9:3: section \"E\" has no bars"}},
        {"lists and maps in a section",
         head + "sections:\n  A: {b: c}\n  B: [F6, [C7], ~]\n",
         {"5:6: the section has no \"bars\": add a line such as `bars: F6 | D7 | Gm7 | C7`",
          "5:7: \"b\" is not a key of a section: the keys are key, meter, tempo, feel, drums, "
          "bass, phrasing, rhythm, bars and endings",
          "6:6: an empty list item where a line of bars was expected",
          "6:11: a list where a line of bars was expected: write it as a text such as \"F6 | D7 | "
          "Gm7 | C7\""}},
        {"a section's own keys mistyped, twice, without a value, or with a wrong one",
         head + "sections:\n  A:\n    bar: F6\n  B:\n    bars: F6\n    feel: bossa\n    bars: C7\n"
                "  C:\n    bars:\n    bass: F6\n  D: {drums: [off], bars: F6, swing: auto}\n",
         {"6:5: \"bar\" is not a key of a section: did you mean bars?",
          "6:5: the section has no \"bars\"",
          "10:5: \"bars\" stands here a second time: the first is in line 8, keep one of them",
          "12:5: \"bars\" has no value: write one behind the colon",
          "13:11: \"F6\" is not a way to play the bass",
          "14:14: a list where one value was expected",
          "14:31: \"swing\" is not a key of a section: the keys are key, meter, tempo, feel, "
          "drums, "
          "bass, phrasing, rhythm, bars and endings"}},
        {"a section's bars that are none",
         head + "sections:\n  A: {}\n  B: {bars: {bars: F6}}\n  C: {bars: [~, F6]}\n"
                "  D: {bars: \"\"}\n  E:\n    feel: swing\n    bars: |\n  F: {bars: &a F6}\n",
         {"5:6: the section has no \"bars\"",
          "6:13: a map of keys where a line of bars was expected",
          "7:13: an empty list item where a line of bars was expected",
          "8:3: section \"D\" has no bars", "9:3: section \"E\" has no bars",
          "12:13: a YAML anchor (&)"}},
        {"names that cannot name a section",
         head + "sections: {\"A#2\": F6, 1: F6, \"B:1\": F6, \" C\": F6, \"\": F6, [D]: F6}\n",
         {"4:12: \"A#2\" cannot name a section: a name begins with a letter and has at most 32 "
          "letters, digits, blanks and _ - . ', such as A or Intro 2",
          "4:23: \"1\" cannot name", "4:30: \"B:1\" cannot name", "4:41: \" C\" cannot name",
          "4:51: \"\" cannot name", "4:59: a list cannot name a section"}},
        {"a section that is not there",
         head + "form: [A, C]\nsections: {A: F6, B: C7}\n",
         {"4:11: there is no section \"C\": the sections are A and B"}},
        {"a form run together",
         head + "form: AABA\nsections: {A: F6, B: C7}\n",
         {"4:7: a text where the form was expected: write it as a list of section names, such as "
          "[A, A, B, A]"}},
        {"an empty form",
         head + "form: []\n" + bars,
         {"4:7: the form is empty: name its sections"}},
        {"a form of anything but names",
         head + "form: [A, [A], ~]\n" + bars,
         {"4:7: nothing in the form where the name of a section was expected",
          "4:11: a list in the form where the name of a section was expected"}},
        {"bars that YAML takes for a comment",
         head + "sections:\n  A:\n    - F6 | D7 #9\n  B: C7 # home\n",
         {"6:15: YAML takes the rest of this line for a comment: put the line in quotes, or the "
          "bars in a block scalar (|); a comment goes on a line of its own",
          "7:9: YAML takes the rest of this line for a comment"}},
        {"bars on several lines without a block scalar",
         head + "sections:\n  A: F6 | D7\n     Gm7 | C7\n  B: >\n     F6\n  C: \"F6\n    D7\"\n",
         {"5:6: YAML joins these lines into one, and the bars at their ends with them: write | "
          "after the colon and the bars on the next lines",
          "7:6: a block scalar that begins with > loses its line ends: begin it with |",
          "9:6: the quotes opened here are not closed on this line: close them; several lines of "
          "bars go into a block scalar (|)"}},
        {"a section that YAML refuses, and what needs its bars",
         head + "segno: B\nroad map: head x2\nsections:\n  A: &F7\n  B: C7\n",
         {"7:6: a YAML anchor (&)"}},
        {"a refused section alone, and a road map",
         head + "road map: head x2\nsections:\n  A: &F7\n",
         {"6:6: a YAML anchor (&)"}},
        {"anchors, aliases and tags",
         head + "sections: &all\n  A: &a F6\n  B: *a\n  C: !!str C7\n  D: ! C7\n",
         {"4:11: a YAML anchor (&): charts have none, delete it", "5:6: a YAML anchor (&)",
          "6:6: a YAML alias (*): write out what it stands for",
          "7:6: a YAML tag (!): charts have none, delete it", "8:6: a YAML tag (!)"}},
        {"an alias of nothing",
         head + "feel: *swing\n" + bars,
         {"4:7: a YAML alias (*): write out what it stands for"}},
        {"two documents",
         head + bars + "---\ntitle: U\n",
         {"5:1: a second YAML document begins here: one file holds one chart, so put this in a "
          "file "
          "of its own"}},
        {"two documents, the first without a key",
         "title: T\ntempo: 120\nsections: {A: F6}\n---\nx\n",
         {"1:1: the chart has no \"key\"", "4:1: a second YAML document begins here"}},
        {"tabs",
         head + "sections:\n  A: |\n    F6\t| C7\t| G7\n\tB: F6\n",
         {"6:7: a tab: charts are indented and spaced with blanks", "7:1: a tab"}},
        {"control characters",
         std::string("title: T\1\2\nkey: F\0\ntempo: 120\r1\n", 32) + bars,
         {"1:9: the control character U+0001: delete it", "2:7: the control character U+0000",
          "3:11: the control character U+000D"}},
        {"characters that turn text round",
         "title: T\u202E\nkey: F\ntempo: 120\nsections: {A: F6\uFEFF}\n",
         {"1:9: the misleading invisible character U+202E: delete it",
          "4:17: the misleading invisible character U+FEFF"}},
        {"bytes that are not UTF-8",
         "title: Caf\xE9\nkey: F\ntempo: 120\nsections: {A: B\xE2\x99 | B\xED\xA0\x80}\n",
         {"1:11: the byte E9 is not UTF-8 here: save the file as UTF-8", "4:16: the byte E2"}},
        {"code points in more bytes than they need, surrogates, and beyond the last one",
         head + "# \xE0\x80\xAF\n# \xC0\xAF\n# \xED\xA0\x80\n# \xF4\x90\x80\x80\n" + bars,
         {"4:3: the byte E0", "5:3: the byte C0", "6:3: the byte ED", "7:3: the byte F4"}},
        {"a value with a colon",
         "title: Part 1: Dawn\nkey: F\n",
         {"1:14: this is not YAML: a \":\" where none is expected: put a text that holds one in "
          "quotes, and start the keys of one map in one column"}},
        {"a value with a colon, columns after flats",
         "title: B♭♭: Dawn\nkey: F\n",
         {"1:11: this is not YAML: a \":\" where none is expected"}},
        {"a bracket that is not closed, and what is wrong before it",
         "title: T\nkey: H\ntempo: 120\nform: [A, B\nsections:\n  A: F6\n",
         {"2:6: \"H\" is not a key",
          "4:7: this is not YAML: the bracket opened here is not closed, "
          "or a comma is missing in it"}},
        {"quotes that are not closed",
         head + "sections:\n  A: H7\n  B: \"F6 | C7\n",
         {"5:6: \"H7\" is not a chord",
          "6:6: the quotes opened here are not closed on this line: close them"}},
        {"quotes of which only an escaped one, or a pair, is on their line",
         "title: \"A \\\"\n  B\"\nkey: 'It''\n  s'\ntempo: 120\n" + bars,
         {"1:8: the quotes opened here are not closed on this line",
          "3:6: the quotes opened here"}},
        {"a line of bars that begins with a bar line",
         head + "sections:\n  A:\n    - | F6 | C7 |\n",
         {"6:9: this is not YAML: nothing may follow the | that begins a block scalar"}},
        {"a line of bars that begins with a simile",
         head + "sections:\n  A: % | F6\n",
         {"5:6: this is not YAML: a value cannot start with this character: put the value in "
          "quotes"}},
        {"keys in different columns",
         "title: T\nkey: F\n meter: 3/4\n",
         {"3:7: this is not YAML: a \":\" where none is expected"}},
        {"a list in the middle of a map",
         head + "- F6\n",
         {"4:1: this is not YAML: this line does not go on with the map before it"}},
    };
}

void check(const Malformed& chart) {
    INFO(chart.what);
    const auto found = problems_of(chart.text);
    std::string all;
    for (const auto& problem : found) all += problem + "\n";
    INFO(all);
    CHECK(found.size() == chart.problems.size());
    for (std::size_t i = 0; i < std::min(found.size(), chart.problems.size()); ++i) {
        CHECK(found[i].substr(0, chart.problems[i].size()) == chart.problems[i]);
    }
}

}  // namespace

TEST_CASE("malformed charts: every problem with its place, what was found and what to do") {
    for (const auto& chart : malformed_charts()) check(chart);
}

TEST_CASE("the message of a chart error has a line for each problem, beginning with the file") {
    try {
        (void)compline::chart::read_chart("title: T\nkey: H\ntempo: 1\n" + bars,
                                          "my\ncharts/x.yaml");
        FAIL("read");
    } catch (const compline::chart::ChartError& error) {
        CHECK(
            std::string(error.what()) ==
            "my<U+000A>charts/x.yaml:2:6: \"H\" is not a key: write a note A to G, ♭ or ♯ (b or "
            "#) if need be, and m for minor, such as F, E♭, Cm or F# minor\n"
            "my<U+000A>charts/x.yaml:3:8: \"1\" is not a tempo the band can play: write 30 to 400 "
            "quarter notes a minute");
    }
}

TEST_CASE("after a hundred problems the rest are counted") {
    std::string text = head + "sections:\n  A: |\n";
    for (int i = 0; i < 120; ++i) text += "    H7\n";
    const auto problems = problems_of(text);
    REQUIRE(problems.size() == 101);
    CHECK(problems[99].substr(0, 6) == "105:5:");
    CHECK(problems[100] == "0:0: 20 more problems not shown: mend these first");
}
