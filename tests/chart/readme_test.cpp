#include "chart/support.hpp"
#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/chart/chart.hpp>
#include <compline/chart/road_map_text.hpp>
#include <compline/harmony/chord.hpp>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

// charts/README.md is what people write charts by: every example in it is tried here.

using namespace compline;

namespace {

std::string readme() {
    std::ifstream file(COMPLINE_SOURCE_DIR "/charts/README.md");
    return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<std::string> all_between(const std::string& text, const std::string& open,
                                     const std::string& close) {
    std::vector<std::string> found;
    for (auto at = text.find(open); at != std::string::npos; at = text.find(open, at)) {
        at += open.size();
        const auto end = text.find(close, at);
        if (end == std::string::npos) break;
        found.push_back(text.substr(at, end - at));
        at = end + close.size();
    }
    return found;
}

/// The cells of each row of the table whose heading begins so.
std::vector<std::vector<std::string>> table(const std::string& text, const std::string& heading) {
    std::vector<std::vector<std::string>> rows;
    std::istringstream lines(text.substr(text.find("| " + heading + " |")));
    std::string line;
    std::getline(lines, line);  // the heading
    std::getline(lines, line);  // the rule below it
    while (std::getline(lines, line) && line.starts_with("|")) {
        std::vector<std::string> cells;
        std::istringstream in(line.substr(1));
        for (std::string cell; std::getline(in, cell, '|');) cells.push_back(cell);
        rows.push_back(cells);
    }
    return rows;
}

std::string letters(const std::string& symbol) {
    return harmony::read_chord(symbol).symbol(harmony::Accidentals::letters);
}

}  // namespace

TEST_CASE("the whole chart in the charts' README reads") {
    const auto charts = all_between(readme(), "```yaml\n", "```");
    REQUIRE(charts.size() == 1);
    const auto form = chart::unroll(chart::read_chart(charts[0], "README"));
    CHECK(form.bars.size() == 32);
    CHECK(form.lead_in.size() == 1);
    CHECK(form.segno == 17);
    CHECK(form.fine == 8);
    CHECK(form.bar(16).manner == chart::AskedManner{chart::Feel::swing, chart::Drums::ride,
                                                    chart::Bass::walking, false,
                                                    chart::Phrasing::even});
    CHECK(form.bar(17).manner == chart::AskedManner{chart::Feel::bossa, chart::Drums::brushes,
                                                    chart::Bass::walking, false,
                                                    chart::Phrasing::even});
    CHECK(form.bar(8).kicks.empty());
    CHECK(form.bar(16).kicks == std::vector<time::Ticks>{time::Ticks(0), time::Ticks(2400)});
    CHECK(chart::road_map_in_words(*chart::own_road_map(form), form) ==
          "head (two-feel), solo twice, head (two-feel), tag, held ending");
}

TEST_CASE("every bar in the charts' README means what it says") {
    const auto rows = table(readme(), "written");
    REQUIRE(rows.size() == 10);
    for (const auto& row : rows) {
        for (const auto& bar : all_between(row[0], "`", "`")) {
            INFO(bar);
            CHECK(tests::form_of("F6 | " + bar).bars.size() == 2);
        }
    }
    for (const int beats : {4, 6}) CHECK(tests::form_of("Fm7 Bb7", "F", beats).spans.size() == 2);
    for (const int beats : {3, 6}) CHECK(tests::form_of("F6 D7 C7", "F", beats).spans.size() == 3);
    CHECK(tests::form_of("Fm7 Bb7", "F", 5).spans[1].start == time::quarter_note * 3);
    CHECK(tests::form_of("F7! / Bb7! /").bars[0].kicks ==
          std::vector<time::Ticks>{time::Ticks(0), time::Ticks(1920)});
    CHECK(tests::form_of("F7 /&! N.C.!&! /").bars[0].kicks ==
          std::vector<time::Ticks>{time::Ticks(1440), time::Ticks(1920), time::Ticks(2400)});
    CHECK(tests::form_of("F7 / / &Bb7").spans[1].start == time::Ticks(3360));
    CHECK(tests::form_of("C6~4").bars[0].hold == time::quarter_note * 4);
    CHECK(tests::form_of("C6~").bars[0].hold == time::quarter_note * 2);
    CHECK(tests::form_of("F6 / D7 /").spans.size() == 2);
    CHECK(!tests::form_of("F6 (D7)").spans[0].optional);
    CHECK(tests::form_of("F6 (D7)").spans[1].optional);
    CHECK(tests::form_of("F6 | %").spans.size() == 2);
}

TEST_CASE("every feel and manner in the charts' README can be asked for by chart and section") {
    const auto rows = table(readme(), "asked for");
    REQUIRE(rows.size() == 9);
    int manners = 0;
    for (const auto& row : rows) {
        for (const auto& cell : row) {
            for (const auto& manner : all_between(cell, "`", "`")) {
                if (manner == "swing") continue;
                INFO(manner);
                const auto chart = chart::read_chart(
                    manner + "\ntitle: T\nkey: F\ntempo: 120\nsections:\n  A:\n    " + manner +
                        "\n    bars: F6\n",
                    "README");
                CHECK(!(chart.manner == chart::AskedManner{}));
                CHECK(chart.sections[0].manner == chart.manner);
                ++manners;
            }
        }
    }
    CHECK(manners == 4 + 5 + 4 + 2 + 2);
}

TEST_CASE("every voicing in the charts' README can be asked for") {
    const auto chart = all_between(readme(), "```yaml\n", "```").at(0);
    CHECK(chart::read_chart(chart, "README").voicings.size() == 3);
    const auto start = chart.find("\nvoicings:") + 1;
    const auto end = chart.find('\n', start);
    const auto rows = table(readme(), "place");
    REQUIRE(rows.size() == 3);
    std::size_t count = 0;
    for (const auto& row : rows) {
        for (const auto& voicing : all_between(row[0], "`", "`")) {
            INFO(voicing);
            auto with_it = chart;
            with_it.replace(start, end - start, "voicings:\n  " + voicing);
            CHECK(chart::read_chart(with_it, "README").voicings.size() == 1);
            ++count;
        }
    }
    CHECK(count == 7);
}

TEST_CASE("every road map in the charts' README is played as it says") {
    const auto form = chart::unroll(chart::read_chart(
        "form: [A x2, B, A]\nsegno: B\nto coda: \"A:2\"\n" +
            tests::chart_text("  A: F6 | D7 | Gm7 | C7\n  B: F6 | D7 | Gm7 | C7\n  Coda: F6\n"),
        "README"));
    const auto rows = table(readme(), "road map");
    REQUIRE(rows.size() == 10);
    std::vector<std::string> words;
    for (const auto& row : rows) {
        const auto road_map = all_between(row[0], "`", "`").at(0);
        words.push_back(chart::road_map_in_words(chart::read_road_map(form, road_map), form));
    }
    CHECK(words == std::vector<std::string>{
                       "head, solo twice, head", "head (two-feel, brushes), solo (walking)",
                       "solo twice, trading (silent)", "vamp 4 times (bars 9-12), head",
                       "intro 4, head", "head (bars 1-14), coda (bar 17)",
                       "vamp until cue (bars 9-12), head", "head, rit 2, head (a tempo)",
                       "head, tag", "head, tag, held ending"});
    CHECK(chart::road_map_in_words(chart::read_road_map(form, "D.S. al coda"), form) ==
          "D.S. (bars 9-14), coda (bar 17)");
    CHECK(chart::read_road_map(form, "head; tag") == chart::read_road_map(form, "head; tag 3"));
    CHECK(chart::read_road_map(form, "intro; head") == chart::read_road_map(form, "intro 4; head"));
}

TEST_CASE("every chord in the charts' README reads, and prints as the README says") {
    const auto rows = table(readme(), "printed");
    REQUIRE(rows.size() == 23);
    std::size_t symbols = 0;
    for (const auto& row : rows) {
        REQUIRE(row.size() >= 3);
        const auto printed = all_between(row[0], "`", "`");
        for (const auto& symbol : printed) CHECK(letters(symbol) == symbol);
        // Another spelling is one of the row's chords.
        for (const auto& spelling : all_between(row[1], "`", "`")) {
            INFO(spelling << " is " << letters(spelling));
            CHECK(std::find(printed.begin(), printed.end(), letters(spelling)) != printed.end());
            ++symbols;
        }
        for (const auto& symbol : all_between(row[2], "`", "`")) {
            if (symbol != "m/maj7") CHECK(letters(symbol) == symbol);
        }
    }
    CHECK(symbols > 60);
}

TEST_CASE("every chord in the running text of the charts' README reads") {
    const auto text = readme();
    const auto chords =
        text.substr(text.find("## Chords"), text.find("| printed") - text.find("## Chords"));
    int symbols = 0;
    for (const auto& quoted : all_between(chords, "`", "`")) {
        const bool command = quoted.starts_with("compline");
        if (!command) CHECK_NOTHROW(harmony::read_chord(quoted));
        symbols += !command;
    }
    CHECK(symbols >= 9);
    CHECK(harmony::read_chord("C#9").root == harmony::Spelling{harmony::Letter::C, 1});
}
