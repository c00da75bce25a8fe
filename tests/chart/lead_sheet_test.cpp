#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/form.hpp>
#include <compline/chart/write_chart.hpp>

#include <string>
#include <vector>

using namespace compline;
using tests::chart_of;
using tests::chart_text;
using tests::problems_of;
using time::Meter;
using time::Ticks;

namespace {

/// "F7 0, Bb7 1440": each chord and where it begins, in ticks.
std::string chords_of(const chart::WrittenBar& bar) {
    std::string text;
    for (const auto& slot : bar.slots) {
        text += text.empty() ? "" : ", ";
        text += slot.chord ? slot.chord->symbol(harmony::Accidentals::letters) : "N.C.";
        text += " " + std::to_string(slot.start.count());
    }
    return text;
}

std::string only_bar(const std::string& bar, const std::string& meter = "4/4") {
    return chords_of(chart_of({bar}, meter).sections.front().bars.front());
}

std::string only_problem(const std::string& text) {
    const auto problems = problems_of(text);
    REQUIRE(problems.size() == 1);
    return problems.front();
}

std::string above(const std::string& keys, const std::string& sections = "  A: C | D\n") {
    return only_problem(keys + chart_text(sections));
}

bool begins(const std::string& text, const std::string& with) {
    return text.substr(0, with.size()) == with;
}

}  // namespace

TEST_CASE("a chord behind & comes in on the off-beat") {
    CHECK(only_bar("F7 / / &Bb7") == "F7 0, Bb7 3360");
    CHECK(only_bar("F7 /&Bb7 / /") == "F7 0, Bb7 1440");
    CHECK(only_bar("F7&Bb7 C7") == "F7 0, Bb7 480, C7 1920");
    CHECK(only_bar("C7 &F7") == "C7 0, F7 2400");
    CHECK(only_bar("Gm7 &C7!", "2/4") == "Gm7 0, C7 1440");
    const auto bar = chart_of({"F7!&Bb7! / / /&!"}).sections.front().bars.front();
    CHECK(bar.kicks == std::vector<Ticks>{Ticks(0), Ticks(480), Ticks(3360)});
    CHECK(chords_of(bar) == "F7 0, Bb7 480");
}

TEST_CASE("signs share the bars of every meter by its beats or by what it counts") {
    CHECK(only_bar("C D", "2/2") == "C 0, D 1920");
    CHECK(only_bar("C / D E", "2/2") == "C 0, D 1920, E 2880");
    CHECK(only_bar("C D", "6/8") == "C 0, D 1440");
    CHECK(only_bar("C / D / / E", "6/8") == "C 0, D 960, E 2400");
    CHECK(only_bar("C D E", "9/8") == "C 0, D 1440, E 2880");
    CHECK(only_bar("C D", "12/8") == "C 0, D 2880");
    CHECK(only_bar("C / D E", "12/8") == "C 0, D 2880, E 4320");
    CHECK(only_problem(chart_text("  A: C D E\n", "6/8")) ==
          "6:10: 3 chords do not share a bar of 6/8 evenly: write 1, 2 or 6, with / for each beat "
          "a chord goes on, or a bar line is missing");
    CHECK(only_problem(chart_text("  A: C / D\n", "6/8")) ==
          "6:8: a / is one beat, so this bar of 6/8 needs 2 or 6 chords and slashes, not 3 (a "
          "slash chord has no blanks: C7/E)");
    CHECK(begins(only_problem(chart_text("  A: C &D\n", "6/8")),
                 "6:9: & has no off-beat in 6/8: write 6 signs, one for each eighth"));
}

TEST_CASE("a fermata holds the last chord of its bar for beats that are written, or two") {
    const auto bars = chart_of({"F7~ | C7 / / /~4 | % | D7! E7!~1"}).sections.front().bars;
    CHECK(bars[0].hold == time::quarter_note * 2);
    CHECK(bars[1].hold == time::quarter_note * 4);
    CHECK(bars[2].hold == Ticks(0));
    CHECK(bars[3].hold == time::quarter_note);
    CHECK(bars[3].kicks.size() == 2);
    CHECK(chart_of({"F7\U0001D1103"}).sections.front().bars.front().hold == time::quarter_note * 3);
    CHECK(chart_of({"F7~1"}, "6/8").sections.front().bars.front().hold == Ticks(1440));
    CHECK(only_problem(chart_text("  A: F7~2 C7\n")) ==
          "6:8: a fermata stands behind the last chord of its bar: put the bar line there");
    CHECK(only_problem(chart_text("  A: C | F7 ~\n")) ==
          "6:13: \"~\" alone is no fermata: it stands behind a chord without a blank, such as "
          "C6~4");
    CHECK(only_problem(chart_text("  A: F7~40\n")) ==
          "6:8: \"~40\" is no fermata: write ~ and how many beats longer the chord is held, 1 to "
          "32, such as C6~4");
}

TEST_CASE("endings go on from the bars before them, and number the times that take them") {
    const auto chart = chart::read_chart(
        chart_text("  A:\n    bars: C | D\n    endings: {1-2: \"% | / E / /\", 3: \"F\"}\n"), "t");
    const auto& endings = chart.sections.front().endings;
    REQUIRE(endings.size() == 2);
    CHECK(endings[0].numbers == std::vector<int>{1, 2});
    CHECK(chords_of(endings[0].bars[0]) == "D 0");
    CHECK(chords_of(endings[0].bars[1]) == "D 0, E 960");
    CHECK(tests::form_in_words(chart) == "A A A");
    const auto error = [](const std::string& text) {
        return only_problem(chart_text("  A:\n    bars: C\n    endings: " + text + "\n"));
    };
    CHECK(error("{1: D, 3: E}") ==
          "8:14: there is an ending 3 and no ending 2: number them from 1 without a gap");
    CHECK(error("{1: D, 1-2: E}") == "8:21: there are two endings 1: keep one");
    CHECK(error("{first: D}") ==
          "8:15: \"first\" does not number an ending: write the times that take it, such as 1, 2 "
          "or 1-3, and behind the colon its bars");
    CHECK(begins(error("{1: \"\"}"), "8:15: ending 1 has no bars"));
    CHECK(begins(error("D"), "8:14: a text where endings were expected"));
    CHECK(error("{1: \"D | X\"}") ==
          "8:23: \"X\" is not a chord: a chord starts with a letter A to G (N.C. where nobody "
          "plays)");
}

TEST_CASE("the form says how often in a row, and which ending") {
    CHECK(above("form: [A x2, B]\n") == "1:14: there is no section \"B\": the sections are A");
    CHECK(above("form: [A ending 2]\n") ==
          "1:8: section \"A\" has no endings: write them, or its name alone");
    CHECK(above("form: [A ending 3]\n", "  A: {bars: C, endings: {1: D, 2: E}}\n") ==
          "1:8: section \"A\" has no ending 3: write one from 1 to 2");
    CHECK(above("form: [A x0]\n") == "1:8: 0 times in a row: write x1 to x100");
    // A section may be called so.
    const auto chart =
        chart::read_chart("form: [A x2, A]\n" + chart_text("  A: C\n  A x2: D\n"), "t");
    CHECK(chart.form[0].section == "A x2");
}

TEST_CASE("a lead-in is less than a bar, or one, before bar 1") {
    const auto lead_in = [](const std::string& text) {
        return "lead-in: " + text + "\n" + chart_text("  A: F6\n");
    };
    const auto form = chart::unroll(chart::read_chart(lead_in("{beats: 2, chords: Gm7 C7}"), "t"));
    REQUIRE(form.lead_in.size() == 2);
    CHECK(form.lead_in[0].start == -time::quarter_note * 2);
    CHECK(form.lead_in[1].start == -time::quarter_note);
    CHECK(form.bars.size() == 1);
    const auto late = chart::read_chart(lead_in("{beats: 1.5, chords: C7 / D7}"), "t");
    CHECK(late.lead_in->length == Ticks(1440));
    CHECK(late.lead_in->slots[1].start == Ticks(960));
    CHECK(chart::read_chart(lead_in("{beats: 1}"), "t").lead_in->slots.size() == 1);
    CHECK(begins(only_problem(lead_in("{beats: 5}")), "1:18: a lead-in of more than a bar of 4/4"));
    CHECK(begins(only_problem(lead_in("{beats: 1.3}")), "1:18: \"1.3\" beats cannot lead in"));
    CHECK(begins(only_problem(lead_in("{beats: 2, chords: C | D}")), "1:29: a lead-in is one bar"));
    CHECK(begins(only_problem(lead_in("C7")), "1:10: a text where a lead-in was expected"));
}

TEST_CASE("signs stand in the form, and a coda has somewhere to come from") {
    CHECK(above("to coda: A\n") ==
          "1:10: there is no section Coda to go to: write one, or delete this line");
    CHECK(above("segno: C\n") == "1:8: there is no section \"C\" in the form: it has A");
    CHECK(begins(above("segno: Coda\nto coda: A\n", "  A: C\n  Coda: D\n"),
                 "1:8: the segno stands in the coda"));
    CHECK(begins(above("form: [A, Coda]\nto coda: A\n", "  A: C\n  Coda: D\n"),
                 "1:11: the Coda is played by al coda in the road map, and by nothing else"));
    // Without a way to it, a Coda is a section like another.
    const auto chart = chart::read_chart(chart_text("  A: C\n  Coda: D\n"), "t");
    CHECK(tests::form_in_words(chart) == "A Coda");
}

TEST_CASE("a section has a key, a meter, a tempo and a pace of its own") {
    const auto chart = chart::read_chart(
        chart_text(
            "  A: C\n  B: {key: D, meter: 3/4, tempo: 144, feel: bossa double-time, bars: D E F}\n"
            "  C: {tempo: rubato, bars: G}\n"),
        "t");
    const auto form = chart::unroll(chart);
    CHECK(form.bar(1).key.name() == "F");
    CHECK(form.bar(2).key.name() == "D");
    CHECK(form.bar(2).meter == *Meter(3).double_time());
    CHECK(form.bar(2).tempo == time::Bpm(144));
    CHECK(form.bar(2).manner.feel == chart::Feel::bossa);
    CHECK(form.bar(3).rubato);
    CHECK(form.bar(3).start == Ticks(3840 + 2880));
    CHECK(only_problem(chart_text("  A: {meter: 3/4, feel: half-time, bars: C}\n")) ==
          "6:25: a bar of 3/4 cannot be felt so: half-time needs an even number of beats, neither "
          "is for 6/8, 9/8 or 12/8");
    CHECK(begins(only_problem(chart_text("  A: {feel: half-time double-time, bars: C}\n")),
                 "6:13: \"half-time double-time\" is too much for one section"));
}

TEST_CASE("words over bars name bars of the form, and are a few") {
    const auto form = chart::unroll(chart::read_chart(
        "cues: {\"B:1\": drums break}\n" + chart_text("  A: C\n  B: D | E\n"), "t"));
    CHECK(form.bar(2).cue == "drums break");
    CHECK(form.bar(3).cue.empty());
    CHECK(above("cues: {\"B:1\": x}\n") == "1:8: there is no section \"B\" in the form: it has A");
    CHECK(begins(above("cues: drums break\n"), "1:7: a text where words over bars were expected"));
    CHECK(begins(above("cues: {1: " + std::string(41, 'x') + "}\n"), "1:11: \"xxx"));
}

TEST_CASE("a section that is never played is known, and the coda is not one") {
    const auto chart = chart::read_chart(
        "form: [A]\nto coda: A\n" + chart_text("  A: C\n  B: D\n  Coda: E\n"), "t");
    CHECK(chart::never_played(chart) == std::vector<std::string>{"B"});
}

TEST_CASE("a rhythm that the comper means to play is written by chart and section") {
    const auto text = [](const std::string& chart, const std::string& section) {
        return "rhythm: " + chart + "\n" +
               chart_text("  A: {meter: 3/4, rhythm: " + section + ", bars: C | D}\n  B: E\n");
    };
    const auto form = chart::unroll(chart::read_chart(text("four", "\"1 2&\""), "t"));
    CHECK(chart::rhythm_in(form, form.bar(1)).name() == "1 2&");
    CHECK(chart::rhythm_in(form, form.bar(3)).name() == "four");
    CHECK(
        problems_of(text("often", "\"1 4\"")) ==
        std::vector<std::string>{
            "1:9: \"often\" is not a beat of the bar: write 1 to 4, with & for the off-beat after "
            "it, such as \"1 2&\"; or free, or four",
            "7:27: character 3: \"4\" is not a beat of the bar: write 1 to 3, with & for the "
            "off-beat after it, "
            "such as \"1 2&\"; or free, or four"});
}
