#include "chart/support.hpp"
#include "support/catch.hpp"

#include <compline/chart/chart_hash.hpp>

#include <string>

using namespace compline;
using chart::chart_hash;

namespace {

std::string hash_of(const std::string& text) { return chart_hash(chart::read_chart(text, "t")); }

const std::string plain =
    "title: T\nkey: F\ntempo: 120\nform: [A, A]\nsections: {A: F6 | Bbm7b5 C7}\n";

}  // namespace

TEST_CASE("the hash function is 64-bit FNV-1a") {
    // Test vectors of the function's authors (IETF draft-eastlake-fnv, appendix).
    CHECK(chart::fnv1a_64("") == 0xcbf29ce484222325U);
    CHECK(chart::fnv1a_64("a") == 0xaf63dc4c8601ec8cU);
    CHECK(chart::fnv1a_64("foobar") == 0x85944171f73967e8U);
}

TEST_CASE("a chart's hash never changes, or old takes would lose their charts") {
    // Worked out outside this program: FNV-1a of "4/4 F 1\n0 3840 F6\n".
    CHECK(hash_of("title: T\nkey: F\ntempo: 120\nsections: {A: F6}\n") == "c80013745082fe80");
}

TEST_CASE("a chart's hash is that of its music, however it is written") {
    CHECK(hash_of("title: U\nkey: F\ntempo: 200\nfeel: straight\nsections:\n"
                  "  Z: |\n    F6 / / / | B♭-7♭5 / C7 /\n    F6 F6 | Bbø C7\n") == hash_of(plain));
}

TEST_CASE("another key, meter, chord, length or form is another hash") {
    const std::string start = "title: T\ntempo: 120\n";
    const auto differs = [&](const std::string& rest) {
        CHECK(hash_of(start + rest) != hash_of(plain));
    };
    differs("key: Fm\nform: [A, A]\nsections: {A: F6 | Bbm7b5 C7}\n");
    differs("key: F\nform: [A]\nsections: {A: F6 | Bbm7b5 C7}\n");
    differs("key: F\nform: [A, A]\nsections: {A: F6 | Bbm7b5 C9}\n");
    differs("key: F\nform: [A, A]\nsections: {A: F6 | Bbm7b5 / / C7}\n");
    differs("key: F\nform: [A, A]\nsections: {A: F6 | Bbm7b5 N.C.}\n");
    CHECK(hash_of(start + "key: F\nmeter: 3/4\nsections: {A: F6}\n") !=
          hash_of(start + "key: F\nmeter: 4/4\nsections: {A: F6}\n"));
}

TEST_CASE("kicks are judged, so they are part of a chart's hash") {
    const std::string start = "title: T\nkey: F\ntempo: 120\nsections: {A: ";
    // Worked out outside this program: FNV-1a of "4/4 F 1\n0 3840 F6\nkick 2400\n".
    CHECK(hash_of(start + "F6 / /&! /}\n") == "5523f0f77c17a23a");
    CHECK(hash_of(start + "F6! / / /}\n") == hash_of(start + "F6!}\n"));
    CHECK(hash_of(start + "F6!}\n") != hash_of(start + "F6&!}\n"));
    CHECK(hash_of(start + "F6!}\n") != hash_of(start + "F6}\n"));
    CHECK(hash_of(start + "F6! | F6}\n") != hash_of(start + "F6 | F6!}\n"));
}

TEST_CASE("a section's own feel moves its off-beats, so it is part of a chart's hash") {
    const auto with = [](const std::string& section, const std::string& more = "") {
        return hash_of(more + "title: T\nkey: F\ntempo: 120\nsections: {A: F6, B: " + section +
                       "}\n");
    };
    // Worked out outside this program: "4/4 F 2\n0 3840 F6\n3840 3840 C7\nfeel 2 bossa\n".
    CHECK(with("{feel: bossa, bars: C7}") == "bdfbd69110fe98c1");
    CHECK(with("{feel: bossa, bars: C7}") != with("C7"));
    CHECK(with("{feel: bossa, bars: C7}") != with("{feel: straight, bars: C7}"));
    CHECK(with("{bars: C7}") == with("C7"));
}

TEST_CASE("drums, bass and road map may change under a take") {
    const std::string rest = "title: T\nkey: F\ntempo: 120\nsections: {A: F6}\n";
    CHECK(hash_of("road map: head; solo\ndrums: brushes\nbass: roots\nfeel: bossa\n" + rest) ==
          hash_of(rest));
    CHECK(hash_of("title: T\nkey: F\ntempo: 120\nsections: {A: {drums: hats, bars: F6}}\n") ==
          hash_of(rest));
}
