#include "support/catch.hpp"
#include "support/forms.hpp"

#include <compline/roadmap/road_map.hpp>

#include <fmt/format.h>

#include <functional>
#include <string>
#include <vector>

using namespace compline;
using chart::Bass;
using chart::Drums;
using roadmap::Asked;
using roadmap::Decision;
using roadmap::everybody;
using roadmap::LaysOut;
using roadmap::read_silence;
using roadmap::RoadMap;

namespace {

/// Who sounds, bar by bar: d(rums), b(ass), m(elody), g(uitar); a dash where the bar is silent.
std::string who_sounds(const RoadMap& map, int bars) {
    std::string text;
    for (int number = 1; number <= bars; ++number) {
        const auto bar = map.bar(number);
        const auto who = bar.plays();
        CHECK(bar.is_silent() == !who.anybody());
        text += fmt::format("{}{}{}{}{}{}", number == 1 ? "" : " ", who.drums ? "d" : "",
                            who.bass ? "b" : "", who.melody ? "m" : "", who.guitar ? "g" : "",
                            bar.is_silent() ? "-" : "");
    }
    return text;
}

struct Case {
    std::string sentence;
    std::function<void(Asked&)> ask;
    std::string who;  ///< in the first eight bars: twice through four
    std::vector<Decision> decided = {};
};

void all_on(Asked& asked) { asked.melody = asked.guitar = true; }

void no_band(Asked& asked) {
    asked.manner.drums = Drums::off;
    asked.manner.bass = Bass::off;
}

const std::vector<Case> cases{
    {"a band that is asked nothing plays on", [](Asked&) {}, "db db db db db db db db"},
    {"2:2: two bars all play, two bars nobody",
     [](Asked& asked) {
         all_on(asked);
         asked.silence = read_silence("2:2");
     },
     "dbmg dbmg - - dbmg dbmg - -"},
    {"4:4: the second time through four bars is silent",
     [](Asked& asked) { asked.silence = read_silence("4:4"); }, "db db db db - - - -"},
    {"4:4 drums: only the drums lay out, and no bar is silent",
     [](Asked& asked) {
         all_on(asked);
         asked.silence = read_silence("4:4 drums");
     },
     "dbmg dbmg dbmg dbmg bmg bmg bmg bmg"},
    {"2:1 drums with the bass off: the drums alone were there, and the bar is silent",
     [](Asked& asked) {
         asked.manner.bass = Bass::off;
         asked.silence = read_silence("2:1 drums");
     },
     "d d - d d - d d"},
    {"2:1 drums with the bass off and a guitar: the guitar plays on",
     [](Asked& asked) {
         asked.manner.bass = Bass::off;
         asked.guitar = true;
         asked.silence = read_silence("2:1 drums");
     },
     "dg dg g dg dg g dg dg"},
    {"1:1 times: a time through all play, a time through nobody",
     [](Asked& asked) { asked.silence = read_silence("1:1 times"); }, "db db db db - - - -"},
    {"1:1 times drums: the second time through is the bass's",
     [](Asked& asked) { asked.silence = read_silence("1:1 times drums"); }, "db db db db b b b b"},
    {"a stretch of the road map that is silent: nobody plays in it",
     [](Asked& asked) {
         all_on(asked);
         asked.way.stretches[0].silent = true;
     },
     "- - - - dbmg dbmg dbmg dbmg"},
    {"a silent stretch with a silence of the drums alone: nobody plays in it either",
     [](Asked& asked) {
         asked.way.stretches[1].silent = true;
         asked.silence = read_silence("2:2 drums");
     },
     "db db b b - - - -"},
    {"left alone from bar 3 on: nobody plays from there on",
     [](Asked& asked) { all_on(asked); },
     "dbmg dbmg - - - - - -",
     {{3, LaysOut{everybody}}}},
    {"left alone from bar 3 on, the band back in bar 6: so it is",
     [](Asked& asked) { all_on(asked); },
     "dbmg dbmg - - - dbmg dbmg dbmg",
     {{3, LaysOut{everybody}}, {6, LaysOut{everybody, false}}}},
    {"back in a bar that the silence has anyway: silent as it was asked to be",
     [](Asked& asked) { asked.silence = read_silence("2:2"); },
     "db - - - db db - -",
     {{2, LaysOut{everybody}}, {3, LaysOut{everybody, false}}}},
    {"drums and bass off: nobody is there, and every bar is silent", no_band, "- - - - - - - -"},
    {"drums and bass off with a melody: it sounds, and no bar is silent",
     [](Asked& asked) {
         no_band(asked);
         asked.melody = true;
     },
     "m m m m m m m m"},
    {"drums and bass off with a melody and 2:2: silent where the melody lays out",
     [](Asked& asked) {
         no_band(asked);
         asked.melody = true;
         asked.silence = read_silence("2:2");
     },
     "m m - - m m - -"},
    {"a click on every second bar with the bass off: its rests make no silence",
     [](Asked& asked) {
         no_band(asked);
         asked.click = roadmap::read_click("1/2", time::Meter(4));
     },
     "d d d d d d d d"},
    {"a click and 2:2 drums: it falls silent as the drums would",
     [](Asked& asked) {
         no_band(asked);
         asked.click = roadmap::read_click("2 4", time::Meter(4));
         asked.silence = read_silence("2:2 drums");
     },
     "d d - - d d - -"},
    {"a melody plays on the heads alone where the road map has any",
     [](Asked& asked) {
         asked.melody = true;
         asked.way.stretches[0].name = "head";
         asked.way.stretches[1].name = "solo";
     },
     "dbm dbm dbm dbm db db db db"},
    {"a melody on heads alone and nobody else: the solo is silent",
     [](Asked& asked) {
         no_band(asked);
         asked.melody = true;
         asked.way.stretches[0].name = "solo";
         asked.way.stretches[1].name = "head";
     },
     "- - - - m m m m"},
    {"a melody plays all through a road map without heads",
     [](Asked& asked) {
         asked.melody = true;
         asked.way.stretches[0].name = "solo";
     },
     "dbm dbm dbm dbm dbm dbm dbm dbm"},
    {"drums off in one stretch: the bass has it to itself",
     [](Asked& asked) { asked.way.stretches[1].manner.drums = Drums::off; }, "db db db db b b b b"},
};

}  // namespace

TEST_CASE("who sounds in a bar follows from who is there and whom the rule leaves out") {
    for (const auto& one : cases) {
        INFO(one.sentence);
        auto asked = Asked::of({1, 4}, 2);
        one.ask(asked);
        CHECK(who_sounds(RoadMap(tests::bare_bars(4), asked, one.decided), 8) == one.who);
    }
}

TEST_CASE("a silence goes round and round where the music goes on until it is stopped") {
    auto asked = Asked::of({1, 4}, std::nullopt);
    asked.silence = read_silence("3:2");
    const RoadMap map(tests::bare_bars(4), asked);
    for (const std::int64_t number : {1, 3, 6, 500'001, 1'000'003}) {
        CAPTURE(number);
        CHECK_FALSE(map.bar(number).is_silent());
    }
    for (const std::int64_t number : {4, 5, 9, 500'004, 1'000'000}) {
        CAPTURE(number);
        CHECK(map.bar(number).is_silent());
    }
    asked.silence = read_silence("64:64");  // of what has no end none is too long
    CHECK(RoadMap(tests::bare_bars(4), asked).bar(65).is_silent());
    CHECK(RoadMap(tests::bare_bars(4), asked).first(2).bars() == 8);
}
