// Which evening a take belongs to.

#include "support/catch.hpp"

#include <compline/practice/evening_date.hpp>

using compline::practice::evening_of;

TEST_CASE("a take belongs to the evening on which it was played") {
    CHECK(evening_of("2026-11-03T21:40:00+01:00") == "2026-11-03");
    CHECK(evening_of("2026-11-03T04:00:00+01:00") == "2026-11-03");
    CHECK(evening_of("2026-11-03T23:59:59Z") == "2026-11-03");
    CHECK(evening_of("2026-11-03 09:15") == "2026-11-03");
    CHECK(evening_of("2026-11-03") == "2026-11-03");
}

TEST_CASE("what is played after midnight belongs to the evening before, until four") {
    CHECK(evening_of("2026-11-04T00:10:00+01:00") == "2026-11-03");
    CHECK(evening_of("2026-11-04T03:59:59+01:00") == "2026-11-03");
    CHECK(evening_of("2026-12-01T01:00:00+01:00") == "2026-11-30");
    CHECK(evening_of("2028-03-01T01:00:00+01:00") == "2028-02-29");
    CHECK(evening_of("2027-01-01T02:00:00+01:00") == "2026-12-31");
}

TEST_CASE("what is no date has no evening") {
    for (const char* text :
         {"", "yesterday", "2026-13-03T20:00:00", "2026-02-30", "2026-11", "2026/11/03",
          "2026-11-03T", "2026-11-03Tea", "2026-11-03T99:00", "2026-11-03x", "20261103T200000"}) {
        INFO(text);
        CHECK(evening_of(text).empty());
    }
}
