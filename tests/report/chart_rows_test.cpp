// A passage as rows of a lead sheet: letters, bar lines, chords at their beats.

#include "report/rows.hpp"
#include "support/catch.hpp"
#include "support/our_forms.hpp"

#include <algorithm>

using namespace compline;
using namespace compline::tests;
using report::chart_rows;
using report::columns_of;

namespace {

Lines texts(const report::ChartRows& rows) {
    Lines lines;
    for (const auto& row : rows.rows) lines.push_back(row.text());
    return lines;
}

Lines texts(const chart::Form& form, int columns = 80) {
    return texts(chart_rows(form, form.whole(), columns));
}

/// What stands in a row from a column on, up to the next blank or bar line.
std::string word_at(const report::ChartRow& row, int column) {
    std::string text = row.text();
    while (columns_of(text) > 0 && column > 0) {
        do text.erase(0, 1);
        while (!text.empty() && (text[0] & 0xC0) == 0x80);
        --column;
    }
    return text.substr(0, text.find_first_of(" |"));
}

/// A chord as it stands there: with ! for a kick on its beat, &! for one after it.
std::string symbol(const chart::Form& form, const chart::Span& span) {
    std::string text = span.chord ? span.chord->symbol() : "N.C.";
    const auto& bar = form.bar(span.bar);
    for (const auto kick : bar.kicks) {
        if (kick == span.start) text += "!";
        if (kick == span.start + time::eighth_note) text += "&!";
    }
    return text;
}

std::vector<chart::Span> spans_of(const chart::Form& form, int bar) {
    return form.spans_of({bar, bar});
}

/// Whether a bar's chords stand at their beats: whole, shortened where `cut` allows, or as a %.
bool stands(const chart::Form& form, const report::ChartRow& row, std::size_t index, bool cut) {
    const auto& bar = row.bars[index];
    const auto spans = spans_of(form, bar.number);
    if (bar.text.find('%') != std::string::npos) {
        const auto before = spans_of(form, bar.number - 1);
        return index > 0 && spans.size() == 1 && before.size() == 1 &&
               spans[0].chord == before[0].chord;
    }
    return std::all_of(spans.begin(), spans.end(), [&](const chart::Span& span) {
        const auto beat = static_cast<std::size_t>(span.start / time::quarter_note);
        auto word = word_at(row, bar.beats[beat]);
        if (cut && word.find("…") != std::string::npos) word.resize(word.find("…"));
        const auto whole = symbol(form, span);
        return cut ? whole.compare(0, word.size(), word) == 0 : word == whole;
    });
}

/// Whether a row's bars and beats are where they say, with a blank before each beat.
bool is_sound(const report::ChartRow& row, bool one_bar) {
    int column = columns_of(row.letter) + 1;
    bool sound = true;
    for (const auto& bar : row.bars) {
        sound = sound && bar.column == column && columns_of(bar.text) == bar.width;
        sound = sound && bar.text.front() == ' ' && (one_bar || bar.text.back() == ' ');
        sound = sound && bar.beats.front() == column + 1;
        for (std::size_t i = 1; i < bar.beats.size(); ++i) {
            sound = sound && bar.beats[i] >= bar.beats[i - 1] + 2;
        }
        sound = sound && bar.beats.back() < column + bar.width;
        column += bar.width + 1;
    }
    return sound && columns_of(row.text()) == column;
}

void check_rows(const chart::Form& form, const report::ChartRows& rows, bool cut) {
    INFO(rows.columns << " columns, first row: " << rows.rows.front().text());
    int next = rows.passage.from;
    bool good = true;
    for (const auto& row : rows.rows) {
        good =
            good && columns_of(row.text()) <= rows.columns && is_sound(row, rows.bars_per_row == 1);
        good = good && static_cast<int>(row.bars.size()) <= rows.bars_per_row;
        const auto& first = form.bar(row.bars.front().number);
        for (std::size_t i = 0; i < row.bars.size(); ++i, ++next) {
            const auto& bar = form.bar(row.bars[i].number);
            good = good && bar.number == next && stands(form, row, i, cut);
            good = good && bar.section == first.section && bar.occurrence == first.occurrence;
        }
        if (!good) FAIL_CHECK("this row is not right: " << row.text());
    }
    CHECK(next == rows.passage.to + 1);
}

}  // namespace

TEST_CASE("a blues reads as on a lead sheet, four bars a row, two chords at beats 1 and 3",
          "[report]") {
    CHECK(texts(blues_form()) ==
          Lines{"A | F7              | B♭7             | F7              | Cm7     F7      |",
                "A | B♭7             | Bdim7           | F7              | Am7♭5   D7♭9    |",
                "A | Gm7             | C7              | F7      D7      | Gm7     C7      |"});
}

TEST_CASE("a rehearsal letter begins a row, also the same letter again", "[report]") {
    const Lines a = {"A | C6              |         %       | Dm7             | G7              |",
                     "A | C6              | G7              |"};
    const Lines b = {"B | F6              |         %       | Fm6             |         %       |",
                     "B | Em7             | A7              | Dm7             | G7              |"};
    Lines all;
    for (const auto& part : {a, a, b, a}) all.insert(all.end(), part.begin(), part.end());
    CHECK(texts(six_and_eight()) == all);
}

TEST_CASE("kicks stand where they fall, as a chart writes them", "[report]") {
    auto form = form_in_rows({"F7 | F7 | Gm7 C7"}, "4/4");
    form.bars[1].kicks = {time::eighth_note, time::Ticks(3 * 960)};
    form.bars[2].kicks = {time::Ticks(0), time::Ticks(2 * 960 + 480)};
    CHECK(texts(form)[0] == "A | F7              | F7&!        /!  | Gm7!    C7&!    |");
}

TEST_CASE("a waltz has three beats in each bar", "[report]") {
    CHECK(texts(form_in_rows({"G6 | Bm7 E7 Am7 | Am7 / D7 | G6"}, "3/4")) ==
          Lines{"A | G6             | Bm7  E7   Am7  | Am7       D7   | G6             |"});
}

TEST_CASE("a simile mark repeats the one chord before it, never at the beginning of a row",
          "[report]") {
    CHECK(texts(form_in_rows(
              {"F7 | F7 | % | F7", "% | Bb7 F7 | F7 | Bb7 F7", "% | N.C. | N.C. | F7"})) ==
          Lines{"A | F7              |         %       |         %       |         %       |",
                "A | F7              | B♭7     F7      | F7              | B♭7     F7      |",
                "A | B♭7     F7      | N.C.            | N.C.            | F7              |"});
}

TEST_CASE("a passage begins a row with its first bar and shows its chord, even a simile's",
          "[report]") {
    const auto form = six_and_eight();
    const auto rows = chart_rows(form, chart::read_passage(form, "B:4-6"));
    CHECK(texts(rows) == Lines{"B | Fm6             | Em7             | A7              |"});
    CHECK(rows.rows.front().bars.front().number == 16);
    CHECK(texts(chart_rows(form, {5, 7})) == Lines{"A | C6              | G7              |",  //
                                                   "A | C6              |"});
    CHECK(texts(chart_rows(form, {9, 9})) == Lines{"A | Dm7             |"});
}

TEST_CASE("four long symbols a bar take two bars a row, on a narrow terminal one", "[report]") {
    const auto form = form_in_rows({"F#m7b5/B B7b9/D# Em7b5/A A7b9/C# | Dm7 G7 C6 A7", "Dm7 | C6"});
    // The long bar beside three short ones leaves no room for four of its kind.
    CHECK(texts(form) ==
          Lines{"A | F♯m7♭5/B B7♭9/D♯ Em7♭5/A A7♭9/C♯ | Dm7 G7 C6 A7 | Dm7      | C6       |"});
    const auto long_bars =
        form_in_rows({"F#m7b5/B B7b9/D# Em7b5/A A7b9/C# | F#m7b5/B B7b9/D# Em7b5/A A7b9/C#",
                      "F#m7b5/B B7b9/D# Em7b5/A A7b9/C#"});
    CHECK(texts(long_bars) ==
          Lines{"A | F♯m7♭5/B B7♭9/D♯  Em7♭5/A  A7♭9/C♯  | F♯m7♭5/B B7♭9/D♯  Em7♭5/A  A7♭9/C♯  |",
                "A | F♯m7♭5/B B7♭9/D♯  Em7♭5/A  A7♭9/C♯  |"});
    CHECK(texts(long_bars, 40) == Lines(3, "A | F♯m7♭5/B B7♭9/D♯ Em7♭5/A A7♭9/C♯ |"));
}

TEST_CASE("a long symbol on the last beat moves its beats a little, not the bars", "[report]") {
    CHECK(texts(form_in_rows({"Eb6 / / Bb7#5 | Eb6 | Fm7 Bb7 | Eb6"})) ==
          Lines{"A | E♭6       B♭7♯5 | E♭6             | Fm7     B♭7     | E♭6             |"});
}

TEST_CASE("symbols that no row has room for end in an ellipsis", "[report]") {
    CHECK(texts(form_in_rows({"F#m7b5/B C#m7b5/E F#m7b5/B C#m7b5/E"}), 40) ==
          Lines{"A | F♯m7♭5/B C♯m7♭5/E F♯m7♭5/B C♯m7♭5/E|"});
    CHECK(texts(form_in_rows({"C##7sus4/Bbb F##7sus4/Ebb C##7sus4/Bbb F##7sus4/Ebb"}), 40) ==
          Lines{"A | C𝄪7sus4… F𝄪7sus4… C𝄪7sus4… F𝄪7sus4…|"});
}

TEST_CASE("a section's name stands in whole up to eight columns", "[report]") {
    const auto form =
        form_from("  Intro 2: F7 | C7\n  Another refrain: Bb7\n", "[Intro 2, Another refrain]");
    CHECK(texts(form) ==
          Lines{"Intro 2  | F7          | C7          |", "Another… | B♭7         |"});
}

TEST_CASE("nothing in a section's name steers the terminal", "[report]") {
    auto form = blues_form();
    for (auto& bar : form.bars) bar.section = "A\x1B[2J";
    CHECK(texts(form).front().find('\x1B') == std::string::npos);
}

TEST_CASE("a bar is found in its row", "[report]") {
    const auto form = six_and_eight();
    const auto rows = chart_rows(form, {3, 20});
    CHECK(rows.row_of(3) == 0);
    CHECK(rows.row_of(6) == 0);
    CHECK(rows.row_of(7) == 1);
    CHECK(rows.row_of(10) == 1);
    CHECK(rows.row_of(11) == 2);
    CHECK(rows.row_of(20) == rows.rows.size() - 1);
}

TEST_CASE("our charts stand in whole, four bars a row on 80 columns and none wider", "[report]") {
    const auto forms = tests::our_forms();
    REQUIRE(forms.size() >= 4);
    for (const auto& form : forms) {
        const auto rows = chart_rows(form, form.whole());
        CHECK(rows.bars_per_row == 4);
        check_rows(form, rows, false);
        for (const int columns : {30, 40}) {
            check_rows(form, chart_rows(form, form.whole(), columns), false);
        }
    }
}

TEST_CASE("rows of charts made at random fit at any width, every chord at its beat", "[report]") {
    for (unsigned seed = 0; seed < 150; ++seed) {
        AnyForm any(seed);
        const auto form = any.make();
        const int columns = 30 + static_cast<int>(any.below(51));
        check_rows(form, chart_rows(form, form.whole(), columns), columns < 70);
        const int from = 1 + static_cast<int>(any.below(static_cast<unsigned>(form.bars.size())));
        check_rows(form, chart_rows(form, {from, form.whole().to}, columns), columns < 70);
    }
}

TEST_CASE("a terminal of no sensible width gets rows of 30 or 80 columns", "[report]") {
    CHECK(texts(blues_form(), 0) == texts(blues_form(), 30));
    CHECK(texts(blues_form(), 500) == texts(blues_form(), 80));
}

TEST_CASE("the longest form is laid out", "[report]") {
    std::string bars = "C7 F7";
    for (int i = 1; i < 2000; ++i) bars += " | C7 F7";
    const auto longest = form_in_rows({bars});
    CHECK(chart_rows(longest, longest.whole()).rows.size() == 500);
}
