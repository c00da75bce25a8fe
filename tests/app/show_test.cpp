// compline show: a chart as a lead sheet, and what may be played on a chord.

#include "app/program.hpp"

using namespace compline::tests;

TEST_CASE("show prints a chart four bars a row, with the number of each row's first bar", "[app]") {
    const auto ran = run_compline({"show", blues()});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(contains(ran.out, "Blue Kettle on the Back Stairs · F · 4/4"));
    CHECK(contains(ran.out, "\n 1 A | F7  "));
    CHECK(contains(ran.out, "\n 5 A | B♭7  "));
    CHECK(contains(ran.out, "\n 9 A | "));
    CHECK_FALSE(contains(ran.out, "\n13 "));
    const auto some = run_compline({"show", blues(), "--bars", "9-12"});
    CHECK(contains(some.out, "\n 9 A | "));
    CHECK_FALSE(contains(some.out, "\n 1 A | "));
}

TEST_CASE("show --tones says what must sound and what may, for one chord or several", "[app]") {
    const auto ran = run_compline({"show", "--tones", "C7alt", "--tones", "E♭6"});
    INFO(shown(ran));
    CHECK(ran.status == 0);
    CHECK(contains(ran.out, "C7alt\n  as written "));
    CHECK(contains(ran.out, "one of ♭9 D♭, ♯9 D♯"));
    CHECK(contains(ran.out, "\n\nE♭6\n"));
    const auto both = run_compline({"show", blues(), "--tones", "F7"});
    CHECK(contains(both.out, "\n\nF7\n  as written "));
}

TEST_CASE("show says what is wrong with what it was given, and shows nothing then", "[app]") {
    const auto nothing = run_compline({"show"});
    CHECK(nothing.status == 2);
    CHECK(contains(nothing.err, "show needs a chart, or --tones with a chord symbol"));
    const auto symbol = run_compline({"show", blues(), "--tones", "F7", "--tones", "H7\x1B[2J"});
    INFO(shown(symbol));
    CHECK(symbol.status == 2);
    CHECK(symbol.out.empty());
    CHECK(contains(symbol.err, "is not a chord: a chord starts with a letter A to G"));
    CHECK_FALSE(contains(symbol.err, "\x1B"));
    const auto bars = run_compline({"show", "--bars", "1-4", "--tones", "F7"});
    CHECK(bars.status == 2);
    CHECK(contains(bars.err, "no chart was given"));
    CHECK(run_compline({"show", blues(), "--bars", "11-14"}).status == 2);
    CHECK(run_compline({"show", "no-such-chart.yaml"}).status == 2);
}
