#include "support/catch.hpp"
#include "support/comper.hpp"

#include <compline/chart/chart.hpp>
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
}

TEST_CASE("every bar in the charts' README means what it says") {
    const auto rows = table(readme(), "written");
    REQUIRE(rows.size() == 5);
    for (const auto& row : rows) {
        for (const auto& bar : all_between(row[0], "`", "`")) {
            INFO(bar);
            CHECK(tests::form_of("F6 | " + bar).bars.size() == 2);
        }
    }
    CHECK(tests::form_of("F6 / D7 /").spans.size() == 2);
    CHECK(tests::form_of("F6 | %").spans.size() == 2);
}

TEST_CASE("every chord in the charts' README reads, and prints as the README says") {
    const auto rows = table(readme(), "printed");
    REQUIRE(rows.size() == 21);
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
