#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/form.hpp>
#include <compline/chart/summary.hpp>
#include <compline/text/bad_input.hpp>

#include <string>

using namespace compline;
using chart::Form;
using chart::Passage;

namespace {

/// A has four bars, B eight, the coda one: A A B A Coda, 21 bars.
Form aaba() {
    const std::string text =
        "title: T\nkey: F\ntempo: 120\nform: [A, A, B, A, Coda 1]\nsections:\n"
        "  Coda 1: F6\n"
        "  A: F6 D7 | Gm7 C7 | F6 / / N.C. | N.C.\n"
        "  B: A7 | % | D7 | % | G7 | % | C7 | %\n"
        "  Unplayed: F6\n";
    return chart::unroll(chart::read_chart(text, "t.yaml"));
}

std::string passage_error(const Form& form, const std::string& text) {
    try {
        (void)chart::read_passage(form, text);
    } catch (const text::BadInput& error) {
        return error.what();
    }
    return "";
}

const std::string how_to_write =
    "write bars as 9-12 or 9, or a section as B, B:1-4 or, for the second A, A@2:1-4";

}  // namespace

TEST_CASE("bars are numbered through the form, and know their section and playing") {
    const Form form = aaba();
    REQUIRE(form.bars.size() == 21);
    CHECK(form.bar(1).section == "A");
    CHECK(form.bar(1).occurrence == 1);
    CHECK(form.bar(6).occurrence == 2);
    CHECK(form.bar(6).bar_in_section == 2);
    CHECK(form.bar(9).section == "B");
    CHECK(form.bar(16).bar_in_section == 8);
    CHECK(form.bar(17).occurrence == 3);
    CHECK(form.bar(21).section == "Coda 1");
    CHECK(form.bar(21).start == time::Ticks(20 * 3840));
    CHECK(form.whole() == Passage{1, 21});
    CHECK(form.length() == time::Ticks(21 * 3840));
}

TEST_CASE("spans fill the form, one for each chord of a bar") {
    const Form form = aaba();
    time::Ticks end;
    for (const auto& span : form.spans) {
        CHECK(span.start == end);
        CHECK(span.start >= form.bar(span.bar).start);
        end = span.start + span.length;
    }
    CHECK(end == form.length());
    CHECK(form.spans.size() == 3 * 7 + 8 + 1);
    CHECK(form.spans[0].chord->symbol() == "F6");
    CHECK(!form.spans[5].chord.has_value());
    CHECK(form.spans[6].bar == 4);
}

TEST_CASE("the spans of a passage are counted from its first beat and keep their bar numbers") {
    const Form form = aaba();
    const auto spans = form.spans_of({6, 7});
    REQUIRE(spans.size() == 4);
    CHECK(spans[0].start == time::Ticks(0));
    CHECK(spans[0].chord->symbol() == "Gm7");
    CHECK(spans[0].bar == 6);
    CHECK(spans[2].start == time::Ticks(3840));
    CHECK(spans[3].start == time::Ticks(3840 + 2880));
    CHECK(form.spans_of(form.whole()).size() == form.spans.size());
}

TEST_CASE("a waltz has three beats to the bar") {
    const Form form = chart::unroll(tests::chart_of({"G6 | D7"}, "3/4"));
    CHECK(form.bar(2).start == time::Ticks(2880));
    CHECK(form.length() == time::Ticks(5760));
}

TEST_CASE("changes are counted as a player counts them") {
    const auto changes = [](const std::vector<std::string>& lines) {
        return chart::number_of_changes(chart::unroll(tests::chart_of(lines)));
    };
    CHECK(changes({"F6"}) == 1);
    CHECK(changes({"F6 | % | F6 D7 | D7 | F6"}) == 3);
    CHECK(changes({"N.C. | F6 | N.C. | F6"}) == 2);
    CHECK(changes({"N.C."}) == 0);
    CHECK(changes({"Bb-7b5 | B♭ø"}) == 1);
    CHECK(changes({"C7 | C7/E"}) == 2);
}

TEST_CASE("a chart is summed up in one line") {
    const auto summary = [](const std::string& more) {
        const auto chart = chart::read_chart(
            "title: T\nkey: Ebm\ntempo: 132.5\nsections: {A: F6 | D7}\n" + more, "t");
        return chart::summary(chart::unroll(chart));
    };
    CHECK(summary("swing: 5:2") == "T · E♭m · 4/4 · 132.5 bpm · swing 2.50:1 · 2 bars · 2 changes");
    CHECK(summary("feel: straight") == "T · E♭m · 4/4 · 132.5 bpm · straight · 2 bars · 2 changes");
    CHECK(summary("").find("swing auto, 2.5") != std::string::npos);
    CHECK(summary("feel: bossa") == "T · E♭m · 4/4 · 132.5 bpm · bossa · 2 bars · 2 changes");
    CHECK(summary("feel: ballad\nswing: 60%") ==
          "T · E♭m · 4/4 · 132.5 bpm · ballad, swing 1.50:1 · 2 bars · 2 changes");
    CHECK(summary("feel: straight\nbass: two-feel\ndrums: off") ==
          "T · E♭m · 4/4 · 132.5 bpm · straight · two-feel, no drums · 2 bars · 2 changes");
}

TEST_CASE("the line that sums up a chart says what sections ask for, kicks and road map") {
    const auto chart = chart::read_chart(
        "title: T\nkey: F\nmeter: 5/4\ntempo: 120\nfeel: straight\nform: [A, B, A]\n"
        "road map: 'head; solo x2; held ending'\n"
        "sections: {A: F6! / /&! / /, B: {feel: bossa, drums: brushes, bars: D7}}\n",
        "t");
    CHECK(chart::summary(chart::unroll(chart)) ==
          "T · F · 5/4 · 120 bpm · straight · B bossa, brushes · 3 bars · 3 changes · 4 kicks · "
          "road map: head, solo twice, held ending");
}

TEST_CASE("passages are named by bar numbers or by section") {
    const Form form = aaba();
    CHECK(chart::read_passage(form, "9-12") == Passage{9, 12});
    CHECK(chart::read_passage(form, "9") == Passage{9, 9});
    CHECK(chart::read_passage(form, "1-21") == form.whole());
    CHECK(chart::read_passage(form, "B") == Passage{9, 16});
    CHECK(chart::read_passage(form, "B:1-4") == Passage{9, 12});
    CHECK(chart::read_passage(form, "B:8") == Passage{16, 16});
    CHECK(chart::read_passage(form, "A:2-3") == Passage{2, 3});
    CHECK(chart::read_passage(form, "A@2:1-4") == Passage{5, 8});
    CHECK(chart::read_passage(form, "A@3") == Passage{17, 20});
    CHECK(chart::read_passage(form, "A@1:4") == Passage{4, 4});
    CHECK(chart::read_passage(form, "Coda 1") == Passage{21, 21});
}

TEST_CASE("every bar of a form is found by its section's name") {
    const Form form = aaba();
    for (const auto& bar : form.bars) {
        const auto name = fmt::format("{}@{}:{}", bar.section, bar.occurrence, bar.bar_in_section);
        CHECK(chart::read_passage(form, name) == Passage{bar.number, bar.number});
    }
}

TEST_CASE("bars that are not there are refused with how many there are") {
    const Form form = aaba();
    CHECK(passage_error(form, "20-22") == "there is no bar 22: the form has 21 bars");
    CHECK(passage_error(form, "0-4") == "there is no bar 0: bars are counted from 1");
    CHECK(passage_error(form, "B:1-9") == "there is no bar 9: section \"B\" has 8 bars");
    CHECK(passage_error(form, "Coda 1:2") == "there is no bar 2: section \"Coda 1\" has 1 bar");
    CHECK(passage_error(form, "A#2") == "A#2 is written A@2 now");
    CHECK(passage_error(form, "A#2:1-4") == "A#2 is written A@2 now");
    CHECK(passage_error(form, "C#2").starts_with("there is no section \"C\" in the form"));
    CHECK(passage_error(form, "A@4:1") == "there is no A@4: the form has A 3 times");
    CHECK(passage_error(form, "B@2") == "there is no B@2: the form has B 1 time");
}

TEST_CASE("sections that are not played are refused with those that are") {
    const Form form = aaba();
    const std::string played = " in the form: it has A, B and Coda 1";
    CHECK(passage_error(form, "C") == "there is no section \"C\"" + played);
    CHECK(passage_error(form, "b:1") == "there is no section \"b\"" + played);
    CHECK(passage_error(form, "Unplayed") == "there is no section \"Unplayed\"" + played);
    CHECK(passage_error(form, ":1-4") == "there is no section \"\"" + played);
    CHECK(passage_error(form, "\x1b[2J") == "there is no section \"<U+001B>[2J\"" + played);
}

TEST_CASE("ranges that run backwards or name nothing are refused with how to write them") {
    const Form form = aaba();
    CHECK(passage_error(form, "12-9") == "bars 12-9 run backwards: write 9-12");
    CHECK(passage_error(form, "B:4-1") == "bars 4-1 run backwards: write 1-4");
    CHECK(passage_error(form, "") == "no bars are named: " + how_to_write);
    CHECK(passage_error(form, "A@0") == "\"0\" behind @ does not say which one: " + how_to_write);
    CHECK(passage_error(form, "A@x:1") == "\"x\" behind @ does not say which one: " + how_to_write);
    for (const char* range : {"9-", "-9", "9-12-14", "1.5", "9 - 12", "9-12 ", "99999999999"}) {
        CHECK(passage_error(form, range) ==
              fmt::format("\"{}\" does not name bars: {}", range, how_to_write));
    }
    CHECK(passage_error(form, "B:") == "\"\" does not name bars: " + how_to_write);
}
