#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/form.hpp>

#include <string>
#include <vector>

using namespace compline;
using tests::chart_of;

namespace {

/// The kicks of each bar in beats from 1, an off-beat with &: "1 2& | | 4".
std::string kicks_of(const std::vector<std::string>& lines, const std::string& meter = "4/4") {
    const auto chart = chart_of(lines, meter);
    std::string text;
    for (const auto& bar : chart.sections.front().bars) {
        if (&bar != &chart.sections.front().bars.front()) text += " |";
        for (const auto kick : bar.kicks) {
            const auto into_beat = kick % time::quarter_note;
            const std::string mark = into_beat == time::eighth_note ? "&"
                                     : into_beat == time::Ticks(0)  ? ""
                                                                    : "?";
            text += fmt::format(" {}{}", kick / time::quarter_note + 1, mark);
        }
    }
    return text.empty() ? text : text.substr(text.front() == ' ' ? 1 : 0);
}

/// The one problem of a section A with these bars in line 7 from column 5 on.
std::string problem(const std::string& line) {
    const auto problems = tests::problems_of(tests::chart_text("  A: |\n    " + line + "\n"));
    return problems.size() == 1 ? problems.front() : fmt::format("{} problems", problems.size());
}

bool begins(const std::string& text, const std::string& start) {
    return text.substr(0, start.size()) == start;
}

}  // namespace

TEST_CASE("an exclamation mark behind a sign is a kick on its beat, behind a & on the off-beat") {
    CHECK(kicks_of({"F7! / Bb7! /"}) == "1 3");
    CHECK(kicks_of({"F7 /&! / /"}) == "2&");
    CHECK(kicks_of({"F7!&! / / /!&!"}) == "1 1& 4 4&");
    CHECK(kicks_of({"F7&! /! /&! /!"}) == "1& 2 3& 4");
    CHECK(kicks_of({"F7 | C7"}) == "|");
}

TEST_CASE("where a bar has fewer signs than beats the kick is where the sign begins") {
    CHECK(kicks_of({"F7!"}) == "1");
    CHECK(kicks_of({"F7&!"}) == "1&");
    CHECK(kicks_of({"F7! C7!"}) == "1 3");
    CHECK(kicks_of({"F7 C7!&!"}) == "3 3&");
    CHECK(kicks_of({"F7! C7!"}, "5/4") == "1 4");
    CHECK(kicks_of({"F7! C7!"}, "6/4") == "1 4");
    CHECK(kicks_of({"F7! C7! F7&!"}, "6/4") == "1 3 5&");
}

TEST_CASE("a kick changes no chord, and may stand where nobody plays changes") {
    CHECK(tests::bars_read({"F7!&! /! C7/E! N.C.!"}) == "F7 2 C7/E 1 N.C. 1");
    CHECK(kicks_of({"F7!&! /! C7/E! N.C.!"}) == "1 1& 2 3 4");
    CHECK(kicks_of({"N.C.!"}) == "1");
    CHECK(kicks_of({"F6 F6!"}) == "3");
    CHECK(tests::bars_read({"F6 F6!"}) == "F6 4");
}

TEST_CASE("a simile repeats a bar with its kicks") {
    CHECK(kicks_of({"F7! / /&! / | %", "% | F7"}) == "1 3& | 1 3& | 1 3& |");
}

TEST_CASE("bars with the same chords and other kicks are not equal") {
    const auto bars = chart_of({"F7! | F7 | F7! | F7&!"}).sections.front().bars;
    CHECK(!(bars[0] == bars[1]));
    CHECK(bars[0] == bars[2]);
    CHECK(!(bars[0] == bars[3]));
    CHECK(!(chart_of({"F7!"}) == chart_of({"F7"})));
}

TEST_CASE("the unrolled form has each bar's kicks from its own bar line") {
    const auto form = chart::unroll(chart::read_chart(
        "form: [A, B, A]\n" + tests::chart_text("  A: F6 | C7 / /! /\n  B: F6!\n"), "t"));
    REQUIRE(form.bars.size() == 5);
    CHECK(form.bar(1).kicks.empty());
    CHECK(form.bar(2).kicks == std::vector<time::Ticks>{time::Ticks(1920)});
    CHECK(form.bar(3).kicks == std::vector<time::Ticks>{time::Ticks(0)});
    CHECK(form.bar(5).kicks == form.bar(2).kicks);
}

TEST_CASE("kicks are read in every way of writing a section") {
    for (const char* section :
         {"  A: F7! | C7 / /&! /\n", "  A: [\"F7!\", C7 / /&! /]\n",
          "  A:\n    - F7!\n    - C7 / /&! /\n", "  A: {bars: F7! | C7 / /&! /}\n"}) {
        INFO(section);
        const auto chart = chart::read_chart(tests::chart_text(section), "t");
        CHECK(chart.sections.front().bars == chart_of({"F7! | C7 / /&! /"}).sections.front().bars);
    }
}

TEST_CASE("a kick that stands alone belongs behind a sign, and is reported once") {
    const std::string where_it_stands =
        " alone is no kick: its mark stands behind a chord or a / without a blank, such as F7! or "
        "/&!";
    CHECK(problem("F7 ! C7 /") == "7:8: \"!\"" + where_it_stands);
    CHECK(problem("F7 !") == "7:8: \"!\"" + where_it_stands);
    CHECK(problem("F7 | !!") == "7:10: \"!!\"" + where_it_stands);
    CHECK(problem("F7 &! / /") == "7:8: \"&!\"" + where_it_stands);
    CHECK(problem("F7 & Bb7") == "7:8: \"&\"" + where_it_stands);
    CHECK(problem("B♭ ! | %") == "7:8: \"!\"" + where_it_stands);
}

TEST_CASE("marks that are no kick are refused where they begin, with what kicks there are") {
    const auto refused = [](const std::string& marks, const std::string& sign) {
        return fmt::format(
            "\"{}\" behind \"{}\" is no kick: write ! for one on its beat, &! on the off-beat "
            "after it, !&! on both",
            marks, sign);
    };
    CHECK(problem("F7!!") == "7:7: " + refused("!!", "F7"));
    CHECK(problem("F7!x") == "7:7: " + refused("!x", "F7"));
    CHECK(problem("F7&") ==
          "7:7: & with nothing behind it: a chord on the off-beat stands there without a blank, "
          "such as /&Bb7, and &! is a kick there");
    CHECK(problem("F7&!!") == "7:7: " + refused("&!!", "F7"));
    CHECK(problem("F7!& /!") == "2 problems");
    CHECK(problem("F7 / /!#9 /") == "7:11: " + refused("!#9", "/"));
    CHECK(problem("B♭maj7 | E♭!9") == "7:16: " + refused("!9", "E♭"));
    CHECK(problem("F7 | %!x") == "7:11: " + refused("!x", "%"));
}

TEST_CASE("a simile has the kicks of the bar before and takes none of its own") {
    CHECK(problem("F7 | %!") ==
          "7:11: a kick behind %, which repeats the bar before with its kicks: write out a bar "
          "that has others");
}

TEST_CASE("a wrong chord with a kick is a wrong chord") {
    CHECK(begins(problem("H7!"), "7:5: \"H7\" is not a chord"));
    CHECK(begins(problem("C7/H!"), "7:8: \"C7/H\""));
    CHECK(problem("n.c.!") == "7:5: \"n.c.\" is not a chord: where nobody plays write N.C.");
    CHECK(problem("H7!x") == "2 problems");
}
