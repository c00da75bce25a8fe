// What is said of the delays that a player's settings keep.

#include "../../src/app/kept_delays.hpp"

#include "app/program.hpp"
#include "support/catch.hpp"
#include "support/refusal.hpp"

using namespace compline;
using namespace compline::tests;

TEST_CASE("the delays that are kept are told, of the interface and of each guitar", "[app]") {
    settings::AllSettings settings;
    settings.all = {{"round-trip", "11.354 at 48000/256 by JACK:system", "s.yaml:1:1", 1},
                    {"offset", "3", "s.yaml:2:1", 2},
                    {"tolerance", "40", "s.yaml:3:1", 3}};
    settings.guitars = {{"archtop",
                         "",
                         "Six",
                         {{"offset", "9.25", "s.yaml:5:1", 5},
                          {"midi-pickup", "mono cycles=1.4", "s.yaml:6:1", 6},
                          {"string-offsets", "5=8 6=-3.2", "s.yaml:7:1", 7}}},
                        {"baritone", "", "", {{"tuning", "B1 E2 A2 D3 F#3 B3", "s.yaml:9:1", 9}}},
                        {"lute", "", "", {{"string-offsets", "1=2", "s.yaml:10:1", 10}}}};
    CHECK(app::kept_delays(settings) ==
          "Delays\n"
          "  the round trip of the interface: 11.354 ms\n"
          "    measured at 48000 Hz, 256 frames, through JACK:system\n"
          "  every guitar: 3 ms\n"
          "  guitar archtop: 9.25 ms and 1.4 cycles of the wave\n"
          "    string 5: 8 ms later\n"
          "    string 6: 3.2 ms earlier\n"
          "  guitar lute: by string\n"
          "    string 1: 2 ms later\n");
    settings = {};
    settings.all = {{"round-trip", "8", "s.yaml:1:1", 1},
                    {"midi-pickup", "cycles=1", "s.yaml:2:1", 2}};
    CHECK(app::kept_delays(settings) ==
          "Delays\n"
          "  the round trip of the interface: 8 ms\n"
          "  every guitar: 1 cycle of the wave\n");
}

TEST_CASE("where no delays are kept it is said how to measure them", "[app]") {
    settings::AllSettings settings;
    settings.all = {{"midi-pickup", "poly", "s.yaml:1:1", 1}};
    CHECK(app::kept_delays(settings) ==
          "Delays\n  none are kept yet: compline calibrate measures them\n");
}

TEST_CASE("a delay that is kept and cannot be is named with its place", "[app]") {
    for (const auto& [key, value] :
         {std::pair{"round-trip", "fast"}, std::pair{"offset", "fast"},
          std::pair{"string-offsets", "fast"}, std::pair{"midi-pickup", "cycles=fast"}}) {
        settings::AllSettings settings;
        settings.all = {{key, value, "s.yaml:1:1", 1}};
        CAPTURE(key);
        CHECK(contains(refusal([&] { (void)app::kept_delays(settings); }), "s.yaml:1:1: "));
    }
}
