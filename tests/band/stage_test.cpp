#include "support/catch.hpp"
#include "support/refusal.hpp"

#include <compline/band/place.hpp>

#include <string>

using namespace compline;
using tests::refusal;

TEST_CASE("the band is placed beside the beat, up to 20 ms, and says so") {
    band::Stage stage;
    band::read_placement("bass=+8, ride=-4", stage);
    CHECK(stage.seat(band::Chair::bass).behind.milliseconds() == Approx(8));
    CHECK(stage.seat(band::Chair::ride).behind.milliseconds() == Approx(-4));
    CHECK(stage.seat(band::Chair::hats).behind == time::Seconds(0));
    CHECK(band::placement_in_words(stage) == "ride -4, bass +8");
    CHECK(band::placement_in_words({}).empty());
    band::read_placement("drums=2.5", stage);
    CHECK(band::placement_in_words(stage) ==
          "ride +2.5, hats +2.5, kick +2.5, snare +2.5, bass +8");
    CHECK(refusal([&] { band::read_placement("bass=21", stage); }).find("from -20 to 20") !=
          std::string::npos);
    CHECK(refusal([&] { band::read_placement("count=1", stage); }).find("stands on the beat") !=
          std::string::npos);
}

TEST_CASE("what is placed in words is read back") {
    band::Stage stage;
    band::read_placement("kick=-3.25,melody=20,snare=1", stage);
    std::string words = band::placement_in_words(stage);
    CHECK(words == "kick -3.25, snare +1, melody +20");
}

TEST_CASE("the mix is in decibels, and off is silence") {
    band::Stage stage;
    band::read_mix("drums=-6,bass=off,count=3", stage);
    CHECK(stage.seat(band::Chair::ride).gain == Approx(0.5012).epsilon(1e-3));
    CHECK(stage.seat(band::Chair::kick).gain == Approx(0.5012).epsilon(1e-3));
    CHECK(stage.seat(band::Chair::bass).gain == 0.0F);
    CHECK(stage.seat(band::Chair::count).gain == Approx(1.4125).epsilon(1e-3));
    CHECK(stage.seat(band::Chair::melody).gain == 1.0F);
    for (const char* text : {"", "bass", "bass=", "bass=x", "bass=13", "piano=0", "=3", "bass=nan",
                             "bass=+-3", "bass=1,,ride=1", "bass=1,bass=2"}) {
        CAPTURE(text);
        CHECK_FALSE(refusal([&] { band::read_mix(text, stage); }).empty());
    }
    CHECK(refusal([&] { band::read_mix("ride=1, bass=1,bass=2", stage); }) ==
          "character 16: bass is there twice: write it once");
    CHECK(refusal([&] { band::read_mix("ride=1,bas=2", stage); }) ==
          "character 8: \"bas\" is nobody in the band (did you mean bass?): write drums (ride, "
          "hats, kick and snare), ride, hats, kick, snare, count, bass, melody or guitar");
}

TEST_CASE("the band is moved across the bandstand") {
    band::Stage stage;
    band::read_pan("bass=-0.5,drums=0.5", stage);
    CHECK(stage.seat(band::Chair::bass).pan == -0.5F);
    CHECK(stage.seat(band::Chair::snare).pan == 0.5F);
    CHECK_FALSE(stage.seat(band::Chair::count).pan);
    CHECK_FALSE(refusal([&] { band::read_pan("bass=-1.5", stage); }).empty());
}
