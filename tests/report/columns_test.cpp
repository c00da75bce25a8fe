// Text measured in columns of a terminal. Widths as `wcwidth` of a UTF-8 locale gives them.

#include "support/catch.hpp"

#include <compline/report/columns.hpp>

using compline::report::columns_of;
using compline::report::cut_to_columns;
using compline::report::in_lines;

TEST_CASE("a musical sign takes one column, however many bytes it has", "[report]") {
    CHECK(columns_of("") == 0);
    CHECK(columns_of("Am7♭5/F♯") == 8);
    CHECK(columns_of("C△ Bø °7 ·") == 10);
    CHECK(columns_of("|…|") == 3);
}

TEST_CASE("a combining mark takes no column, a wide character two", "[report]") {
    CHECK(columns_of("Cafe\u0301") == 4);
    CHECK(columns_of("サビ") == 4);
}

TEST_CASE("bytes that are no text are counted, one each", "[report]") {
    CHECK(columns_of("a\xFF\x80z") == 4);
    CHECK(columns_of("a\xE2\x99") == 3);  // cut in the middle of a sign
}

TEST_CASE("an escape sequence takes no column", "[report]") {
    CHECK(columns_of("a\x1B[1;7mb\x1B[0mc") == 3);
    CHECK(columns_of("a\x1B[1;7") == 1);
    CHECK(columns_of("\x1B") == 0);
}

TEST_CASE("text that is too wide is cut with an ellipsis, never in the middle of a sign",
          "[report]") {
    CHECK(cut_to_columns("B♭7", 3) == "B♭7");
    CHECK(cut_to_columns("B♭7♯5", 3) == "B♭…");
    CHECK(cut_to_columns("B♭7♯5", 1) == "…");
    CHECK(cut_to_columns("サビ", 3) == "サ…");
    CHECK(cut_to_columns("サビ", 2) == "…");
}

TEST_CASE("what was switched on before the cut is switched off behind it", "[report]") {
    CHECK(cut_to_columns("\x1B[1mB♭7♯5\x1B[0m", 3) == "\x1B[1mB♭…\x1B[0m");
    CHECK(cut_to_columns("\x1B[1mB♭7\x1B[0m", 3) == "\x1B[1mB♭7\x1B[0m");
}

TEST_CASE("a long line is broken at blanks, never within a word", "[report]") {
    using Lines = std::vector<std::string>;
    CHECK(in_lines("", 10) == Lines{""});
    CHECK(in_lines("bar 5  Am7♭5", 12) == Lines{"bar 5  Am7♭5"});
    CHECK(in_lines("bar 5 to Am7♭5 late", 11) == Lines{"bar 5 to", "Am7♭5 late"});
    CHECK(in_lines("bar 5 to Am7♭5 late", 8) == Lines{"bar 5 to", "Am7♭5", "late"});
    CHECK(in_lines("it is in /takes/of/today and so on", 9) ==
          Lines{"it is in", "/takes/of/today", "and so on"});
    CHECK(in_lines("one\ntwo\n", 10) == Lines{"one", "two", ""});
}
