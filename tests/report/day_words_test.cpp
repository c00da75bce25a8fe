// Days as people name them.

#include "support/catch.hpp"

#include <compline/report/day_words.hpp>

using namespace compline;
using report::about_when;
using report::day_words;
using report::on_day;

namespace {
const std::string monday = "2026-11-30";
}  // namespace

TEST_CASE("a day of the last six has its weekday, one before that its date", "[report]") {
    CHECK(day_words("2026-11-30", monday) == "today");
    CHECK(day_words("2026-11-29", monday) == "yesterday");
    CHECK(day_words("2026-11-28", monday) == "Saturday");
    CHECK(day_words("2026-11-24", monday) == "Tuesday");
    CHECK(day_words("2026-11-23", monday) == "23 November");
    CHECK(day_words("2026-01-01", monday) == "1 January");
    CHECK(day_words("2025-12-31", monday) == "31 December 2025");
    CHECK(day_words("2024-02-29", monday) == "29 February 2024");
}

TEST_CASE("a week over the turn of the year has weekdays too", "[report]") {
    CHECK(day_words("2026-12-31", "2027-01-02") == "Thursday");
    CHECK(day_words("2026-12-26", "2027-01-02") == "26 December 2026");
}

TEST_CASE("a day to come is tomorrow, or has its date", "[report]") {
    CHECK(day_words("2026-12-01", monday) == "tomorrow");
    CHECK(day_words("2026-12-02", monday) == "2 December");
    CHECK(day_words("2027-01-04", monday) == "4 January 2027");
}

TEST_CASE("what happened on a day reads as it is said", "[report]") {
    CHECK(on_day("2026-11-30", monday) == "today");
    CHECK(on_day("2026-11-29", monday) == "yesterday");
    CHECK(on_day("2026-11-24", monday) == "on Tuesday");
    CHECK(on_day("2026-11-03", monday) == "on 3 November");
}

TEST_CASE("what is no date comes back as it can be printed", "[report]") {
    CHECK(day_words("soon", monday) == "soon");
    CHECK(day_words("2026-13-01", monday) == "2026-13-01");
    CHECK(day_words("\x1B[2J", monday) == "<U+001B>[2J");
}

TEST_CASE("how long ago some days were is said in weeks, then months, then years", "[report]") {
    CHECK(about_when("2026-11-26", "2026-11-26", monday) == "on Thursday");
    CHECK(about_when("2026-11-23", "2026-11-23", monday) == "a week ago");
    CHECK(about_when("2026-10-28", "2026-11-04", monday) == "four weeks ago");
    CHECK(about_when("2026-09-28", "2026-09-28", monday) == "nine weeks ago");
    CHECK(about_when("2026-09-01", "2026-09-01", monday) == "three months ago");
    CHECK(about_when("2025-11-20", "2025-12-10", monday) == "a year ago");
    CHECK(about_when("2023-11-20", "2023-12-10", monday) == "three years ago");
}
