// Dates as a player says them.

#include "support/catch.hpp"

#include <compline/report/spoken_date.hpp>

using namespace compline::report;

TEST_CASE("an evening is a day and a month, with the year where that is not plain") {
    CHECK(spoken_day("2026-11-03", WithYear::no) == "3 November");
    CHECK(spoken_day("2026-11-28", WithYear::yes) == "28 November 2026");
    CHECK(spoken_day("2027-01-01", WithYear::no) == "1 January");
    CHECK(short_day("2026-12-31") == "31 Dec");
    CHECK(short_day("2027-05-09") == "9 May");
}

TEST_CASE("what is no date is shown as it is, and steers no terminal") {
    CHECK(spoken_day("some day", WithYear::yes) == "some day");
    CHECK(spoken_day("2026-13-03", WithYear::no) == "2026-13-03");
    CHECK(short_day("").empty());
    CHECK(short_day("\x1B[2J") == "<U+001B>[2J");
}
