#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/chart_hash.hpp>
#include <compline/chart/difference.hpp>
#include <compline/chart/form.hpp>

#include <string>

using namespace compline;
using tests::bars_read;
using tests::chart_of;
using tests::problems_of;

namespace {

std::string problem_of(const std::string& bars) {
    const auto problems =
        problems_of("title: T\nkey: F\ntempo: 120\nsections:\n  A: |\n    " + bars + "\n");
    REQUIRE(problems.size() == 1);
    return problems.front();
}

bool says(const std::string& problem, const std::string& words) {
    INFO(problem);
    return problem.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("parentheses around whole chords say that they may be left out") {
    CHECK(bars_read({"F6 | (Gm7 C7)"}) == "F6 4 | (Gm7) 2 (C7) 2");
    CHECK(bars_read({"F6 (D7)"}) == "F6 2 (D7) 2");
    CHECK(bars_read({"( F6 )"}) == "(F6) 4");
    CHECK(bars_read({"F6 / / (D7)"}) == "F6 3 (D7) 1");
    CHECK(bars_read({"F6 / (D7 /)"}) == "F6 2 (D7) 2");
    CHECK(bars_read({"F6 (D7) / Gm7"}) == "F6 1 (D7) 2 Gm7 1");
    CHECK(bars_read({"(F6) (D7)"}) == "(F6) 2 (D7) 2");
    CHECK(bars_read({"F6 (D7) | %"}) == "F6 2 (D7) 2 | F6 2 (D7) 2");
}

TEST_CASE("a chord that must be played in a part of its time is no chord that may be left out") {
    CHECK(bars_read({"F6 (F6)"}) == "F6 4");
    CHECK(bars_read({"(F6) F6"}) == "F6 4");
}

TEST_CASE("a chord's own parentheses stay its own, with blanks in them or without") {
    CHECK(bars_read({"C7(b9)"}) == "C7b9 4");
    CHECK(bars_read({"C7(b9 b13) F6"}) == "C7b9b13 2 F6 2");
    CHECK(bars_read({"C7(b9 #11) | Gm7(no 5)"}) == "C7b9#11 4 | Gm7(no5) 4");
    CHECK(bars_read({"(C7(b9 #11))"}) == "(C7b9#11) 4");
    CHECK(bars_read({"(D7(b9) G7(b9))"}) == "(D7b9) 2 (G7b9) 2");
    CHECK(bars_read({"C–7 F∆7 | C‑7"}) == "Cm7 2 Fmaj7 2 | Cm7 4");
}

TEST_CASE("kicks stand behind a chord in parentheses, within them or without") {
    const auto kicks = [](const std::string& bar) {
        return chart_of({bar}).sections.front().bars.front().kicks;
    };
    CHECK(kicks("F6 (D7!)") == kicks("F6 D7!"));
    CHECK(kicks("F6 (D7)!") == kicks("F6 D7!"));
    CHECK(bars_read({"F6 (D7)&!"}) == "F6 2 (D7) 2");
}

TEST_CASE("parentheses that say nothing are found at their place, with what to write") {
    CHECK(says(problem_of("F6 | (Gm7 C7 | F6"), "6:10: a ( that is not closed in its bar"));
    CHECK(says(problem_of("F6 | Gm7 C7)"), "its ) closes no parenthesis"));
    CHECK(says(problem_of("F6 | C7 (b9)"), "6:14: \"b9\" in parentheses"));
    CHECK(says(problem_of("F6 | C7 (#9)"), "what belongs to a symbol right behind it"));
    CHECK(says(problem_of("F6 | C7 (N.C.)"), "\"N.C.\" in parentheses"));
    CHECK(says(problem_of("F6 | C7(b9"), "stands the closing parenthesis"));
}

TEST_CASE("an annotation's chord and its N are named for what they are, not for repeat signs") {
    CHECK(says(problem_of("F6 | A:min7"), "A:min7 is written Am7"));
    CHECK(says(problem_of("F6 | C:maj7/3"), "C:maj7/3 is written Cmaj7/E"));
    CHECK(says(problem_of("F6 | N"), "where nobody plays write N.C."));
    CHECK(says(problem_of("F6 |: C7"), "repeat signs are not read"));
}

TEST_CASE("that a chord may be left out is judged, so it is part of the chart's hash") {
    const auto must = chart_of({"F6 D7 | Gm7"});
    const auto may = chart_of({"F6 (D7) | Gm7"});
    CHECK(chart::chart_hash(must) != chart::chart_hash(may));
    const auto different = chart::differences(chart::unroll(must), chart::unroll(may));
    REQUIRE(different.size() == 1);
    CHECK(different.front().one == "F6 D7");
    CHECK(different.front().other == "F6 (D7)");
}
