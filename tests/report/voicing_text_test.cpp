// Voicings in words: diagrams for a terminal, what the hand does, where plans differ.

#include "report/planned.hpp"
#include "report/rows.hpp"
#include "support/catch.hpp"
#include "support/golden.hpp"

#include <compline/report/columns.hpp>

#include <clocale>
#include <sstream>

using namespace compline;
using namespace compline::tests;

namespace {

Lines lines_of(const std::string& text) {
    Lines lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

/// A tune of one section with these grips.
std::string text_of(const Lines& bars, const std::vector<Held>& grips,
                    const guitar::Fretboard& fretboard = guitar::Fretboard::standard()) {
    report::Voicings voicings;
    voicings.form = form_in_rows(bars);
    voicings.plans.push_back(plan_of(voicings.form, voicings.form.whole(), grips, fretboard));
    return report::voicings_text(voicings);
}

}  // namespace

TEST_CASE("voicings of a short tune are written as they always were", "[report][golden]") {
    check_golden(report::voicings_text(voicings_of_four_doors()),
                 "report/golden/four-doors-voicings.txt");
}

TEST_CASE("a left-handed player sees the low string on the right", "[report][golden]") {
    auto voicings = voicings_of_four_doors();
    voicings.plans.resize(1);
    check_golden(report::voicings_text(voicings, report::Hand::left),
                 "report/golden/four-doors-left-handed.txt");
}

TEST_CASE("no line about voicings is wider than eighty columns", "[report]") {
    auto voicings = voicings_of_four_doors();
    voicings.form.chart.title = std::string(200, 'T');
    voicings.plans.front().voicings.front().sound = 200'000;  // what hundreds of bars come to
    voicings.plans.front().voicings.front().reach = 200'000;
    for (const auto& line : lines_of(report::voicings_text(voicings))) {
        INFO(line);
        CHECK(report::columns_of(line) <= 80);
    }
    const std::vector<Held> low = {{"x 1 2 3 4 x x x", "x1234xxx"},
                                   {"x x x x 9 11 12 10", "xxxx1342"}};
    const guitar::Fretboard eight(guitar::read_tuning("F#1 B1 E2 A2 D3 G3 B3 E4"), 24);
    for (const auto& line :
         lines_of(text_of({"C#m7b5/G# / / / | C#7b9#11/G# / / /"}, low, eight))) {
        INFO(line);
        CHECK(report::columns_of(line) <= 80);
    }
}

TEST_CASE("a grip that slides as a whole takes three words", "[report]") {
    const auto text = text_of({"A7 | Bb7"}, {{"5 x 5 6 x x", "1x23xx"}, {"6 x 6 7 x x", "1x23xx"}});
    CHECK(has(text, "bar 2  B♭7  all slide up 1; top voice C♯ → D\n"));
    CHECK(has(text, "bar 1  A7   from bar 2: all slide down 1; top voice D → C♯\n"));
}

TEST_CASE("a finger's way is named by its string and its frets", "[report]") {
    const auto text = text_of({"Dm7 | G7"}, {{"x 5 x 5 6 x", "x2x34x"}, {"x x 3 4 3 x", "xx132x"}});
    // 2: string 5 to 2; 3: on string 3, a fret down; 4 lifts, 1 lands.
    CHECK(has(text,
              "bar 2  G7   3 slides down 1 on string 3; 2 moves to string 2, down 2;\n"
              "            1 lands on string 4; 4 lifts; top voice F → D\n"));
}

TEST_CASE("a tune of one chord says that the grip stays", "[report]") {
    const auto text = text_of({"Dm7 | %"}, {{"x 5 x 5 6 x", "x2x34x"}});
    CHECK(has(text, "from bar 1: the same grip; top voice stays on F\n"));
    CHECK(has(text, "changes      1; in 1 of them a finger stays or slides\n"));
    CHECK_FALSE(has(text, "widest jump"));
}

TEST_CASE("where nobody plays chords there is nothing to plan", "[report]") {
    CHECK(has(text_of({"N.C. | %"}, {}), "There is no chord here.\n"));
}

TEST_CASE("diagrams begin at the nut for what lies in the first four frets", "[report]") {
    const auto low = text_of({"G7"}, {{"3 x 3 4 x x", "1x12xx"}});
    CHECK(has(low, "   ╒═╤═╤═╤═╤═╕\n   │ │ │ │ │ │\n"));
    CHECK(has(low, "   1━┿━1 │ │ │\n   │ │ │ 2 │ │\n"));
    const auto high = text_of({"A7"}, {{"5 x 5 6 x x", "1x12xx"}});
    CHECK(has(high, "   ┌─┬─┬─┬─┬─┐\n 5 1━┿━1 │ │ │\n"));
    const auto wide = text_of({"A7"}, {{"5 x x 6 x 9", "1xx2x4"}});
    CHECK(has(wide,
              " 5 1 │ │ │ │ │\n   │ │ │ 2 │ │\n   │ │ │ │ │ │\n   │ │ │ │ │ │\n   │ │ │ │ │ 4\n"));
}

TEST_CASE("a section that comes again is named, with how the hand gets there", "[report]") {
    const auto text = report::voicings_text(voicings_of_four_doors());
    CHECK(has(text, "A again, bars 5-8: as bars 1-4, but at its start\n\nbar 5  Dm7  "));
    CHECK_FALSE(has(text, "bar 6"));
}

TEST_CASE("a section that comes again with some other voicings is shown by these alone",
          "[report]") {
    report::Voicings voicings;
    voicings.form = form_from("  A: Dm7 | G7 | C6 | A7\n", "[A, A]");
    const std::vector<Held> a = {d_minor, g_seventh, c_major, a_seventh};
    auto grips = a;
    grips.insert(grips.end(), a.begin(), a.end());
    const Held other = {"5 x 5 6 x x", "1x12xx"};
    grips[7] = other;
    voicings.plans.push_back(plan_of(voicings.form, voicings.form.whole(), grips));
    const auto text = report::voicings_text(voicings);
    CHECK(has(text, "A again, bars 5-8: as bars 1-4, but for\n\n"));
    CHECK(has(text, "   5x56xx\n"));
    CHECK(has(text, "bar 5  Dm7  "));  // reached from another A7
    CHECK_FALSE(has(text, "bar 6"));
    // More than half is other: it is drawn.
    grips[5] = {"3 x 3 4 3 x", "1x121x"};
    voicings.plans[0] = plan_of(voicings.form, voicings.form.whole(), grips);
    const auto drawn = report::voicings_text(voicings);
    CHECK_FALSE(has(drawn, "again"));
    CHECK(has(drawn, "A, bars 5-8\n"));
}

TEST_CASE("a section that is reached from the same grip needs no more words", "[report]") {
    report::Voicings voicings;
    voicings.form = form_from("  A: Dm7 | G7\n", "[A, A]");
    const std::vector<Held> grips = {d_minor, g_seventh, d_minor, g_seventh};
    voicings.plans.push_back(plan_of(voicings.form, voicings.form.whole(), grips));
    CHECK(has(report::voicings_text(voicings), "A again, bars 3-4: as bars 1-2\n\nOne time"));
}

TEST_CASE("of another plan only what differs is shown", "[report]") {
    const auto text = report::voicings_text(voicings_of_four_doors());
    CHECK(has(text, "Plan 2: cost 22.85, 0.75 more\n"));
    CHECK(has(text, "  Dm7    x5756x → 10-x-10-10-x-x                  bar 1, bar 5\n"));
    CHECK(has(text,
              "  A7     x0202x, fingers x0102x → fingers x0203x  bar 4 beat 4, bar 8 beat 4\n"));
    CHECK(has(text, "  Cmaj7  8x798x → x3545x                          bar 10\n"));
}

TEST_CASE("a guitar that is not the usual one is named, a chart's own voicing marked", "[report]") {
    const guitar::Fretboard drop_d(guitar::read_tuning("D2 A2 D3 G3 B3 E4"), 22, 2);
    const auto text = text_of({"Dm7"}, {{"x 5 x 5 6 x", "x2x34x"}}, drop_d);
    CHECK(has(text, "\ntuning D2 A2 D3 G3 B3 E4, capo 2\n"));
    const guitar::Fretboard flat(guitar::read_tuning("Eb2 Ab2 Db3 Gb3 Bb3 Eb4"), 22);
    CHECK(has(text_of({"Dm7"}, {{"x 5 x 5 6 x", "x2x34x"}}, flat),
              "\ntuning E♭2 A♭2 D♭3 G♭3 B♭3 E♭4\n"));
    auto voicings = voicings_of_four_doors();
    CHECK_FALSE(has(report::voicings_text(voicings), "as the chart asks"));
    voicings.plans[0].voicings[1].pinned = true;
    CHECK(has(report::voicings_text(voicings), "bar 2 *"));
    CHECK(has(report::voicings_text(voicings), "* as the chart asks\n"));
}

TEST_CASE("a plan of some bars names them", "[report]") {
    report::Voicings voicings;
    voicings.form = four_doors();
    voicings.plans.push_back(plan_of(voicings.form, {9, 10}, {high_d, high_d_flat, c_sixth}));
    const auto text = report::voicings_text(voicings);
    CHECK(has(text, "Four Doors   C   4/4   120 bpm   bars 9-10\n"));
    CHECK(has(text, "B, bars 9-10\n"));
    CHECK(has(text, "from bar 10: "));
}

TEST_CASE("what a chart's title holds does not reach the terminal", "[report]") {
    auto voicings = voicings_of_four_doors();
    voicings.form.chart.title = "Four \x1B[2JDoors";
    CHECK_FALSE(has(report::voicings_text(voicings), "\x1B"));
}
