#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/form.hpp>

#include <string>
#include <vector>

using namespace compline;
using chart::AskedManner;
using chart::Bass;
using chart::Drums;
using chart::Feel;
using tests::chart_text;

namespace {

chart::Chart read(const std::string& sections, const std::string& more = "") {
    return chart::read_chart(more + chart_text(sections), "t.yaml");
}

}  // namespace

TEST_CASE("a section may say how it is played, its bars are written as those of any other") {
    const std::string expected = "Gm7 4 | C7 2 F7 2";
    for (const char* bars :
         {"    bars: Gm7 | C7 F7\n", "    bars: |\n      Gm7\n      C7 F7\n",
          "    bars:\n      - Gm7\n      - C7 F7\n", "    bars: [\"Gm7\", C7 F7]\n"}) {
        const auto chart = read(std::string("  A: F6\n  B:\n    feel: bossa\n    drums: brushes\n"
                                            "    bass: two-feel\n") +
                                bars);
        INFO(bars);
        REQUIRE(chart.sections.size() == 2);
        CHECK(chart.sections[0].manner == AskedManner{});
        CHECK(chart.sections[1].name == "B");
        CHECK(chart.sections[1].manner == AskedManner{Feel::bossa, Drums::brushes, Bass::two_feel});
        CHECK(tests::bars_in_words(chart.sections[1]) == expected);
    }
}

TEST_CASE("a section in braces is the same as one on several lines") {
    const auto chart = read("  A: {feel: swing, bars: F6 | C7}\n");
    CHECK(chart.sections[0].manner == AskedManner{Feel::swing, std::nullopt, std::nullopt});
    CHECK(tests::bars_in_words(chart.sections[0]) == "F6 4 | C7 4");
    CHECK(read("  A: {bars: F6 | C7}\n") == read("  A: F6 | C7\n"));
}

TEST_CASE("a section's manner goes before the chart's, bar by bar through the form") {
    const auto form =
        chart::unroll(read("  A: F6\n  B: {feel: bossa, bass: off, bars: C7}\n",
                           "feel: ballad\ndrums: brushes\nbass: roots\nform: [A, B, A]\n"));
    REQUIRE(form.bars.size() == 3);
    CHECK(form.bar(1).manner == AskedManner{Feel::ballad, Drums::brushes, Bass::roots});
    CHECK(form.bar(2).manner == AskedManner{Feel::bossa, Drums::brushes, Bass::off});
    CHECK(form.bar(3).manner == form.bar(1).manner);
}

TEST_CASE("a wrong chord in a section with keys of its own is found at its character") {
    const auto problems = tests::problems_of(
        chart_text("  A:\n    feel: bossa\n    bars: |\n      B♭ | E♭ | H7\n      F6 | % %\n"
                   "  B: {drums: ride, bars: \"B♭ | X\"}\n"));
    REQUIRE(problems.size() == 3);
    CHECK(problems[0].substr(0, 16) == "9:17: \"H7\" is no");
    CHECK(problems[1].substr(0, 7) == "10:12: ");
    CHECK(problems[2].substr(0, 16) == "11:32: \"X\" is no");
}
