#include "support/catch.hpp"

#include <compline/band/place.hpp>
#include <compline/text/bad_input.hpp>

#include <string>

using namespace compline;
using time::Meter;
using time::Ticks;

namespace {

template <typename Read>
std::string refusal(Read read) {
    try {
        read();
    } catch (const text::BadInput& error) {
        return error.what();
    }
    return "";
}

}  // namespace

TEST_CASE("clicks are beats of the bar, with & for off-beats, and /N for every Nth bar") {
    const auto two_and_four = band::read_click("2 4", Meter(4));
    CHECK(two_and_four.positions == std::vector{Ticks(960), Ticks(2880)});
    CHECK(two_and_four.every == 1);
    CHECK(band::read_click(" 4  2 2", Meter(4)) == two_and_four);
    CHECK(band::read_click("2&", Meter(3)).positions == std::vector{Ticks(1440)});
    const auto sparse = band::read_click("1/2", Meter(4));
    CHECK(sparse.positions == std::vector{Ticks(0)});
    CHECK(sparse.every == 2);
    CHECK(band::read_click("1 3/4", Meter(4)).every == 4);
}

TEST_CASE("a click that no bar has is refused in words") {
    for (const char* text : {"", " ", "5", "0", "2 x", "1/", "1/0", "1/17", "/2", "1/2 3", "&"}) {
        CAPTURE(text);
        const auto words = refusal([&] { (void)band::read_click(text, Meter(4)); });
        CHECK(words.find("is not where to click: write beats of the bar, 1 to 4") !=
              std::string::npos);
    }
    CHECK(refusal([] { (void)band::read_click("2 x", Meter(4)); }).find("character 3: \"x\" is") ==
          0);
}

TEST_CASE("a silence says how many bars play and how many do not") {
    CHECK(band::read_silence("4:2") == band::Silence{4, 2, false, false});
    CHECK(band::read_silence("4:4 drums") == band::Silence{4, 4, true, false});
    CHECK(band::read_silence("1:1 times") == band::Silence{1, 1, false, true});
    CHECK(band::read_silence("2:1 times drums") == band::Silence{2, 1, true, true});
    for (const char* text :
         {"", "4", "4:", ":4", "0:4", "4:0", "65:1", "4:4 bass", "-1:2", "4:4:4"}) {
        CAPTURE(text);
        const auto words = refusal([&] { (void)band::read_silence(text); });
        CHECK(words.find("is not a silence: write how many bars play") != std::string::npos);
    }
}

TEST_CASE("a silence counted in choruses is answered with the word of today") {
    for (const std::string old : {"chorus", "choruses"}) {
        CHECK(refusal([&] { (void)band::read_silence("2:1 drums " + old); }) ==
              "character 11: " + old + " is now times: write \"2:1 times\" to count times through");
    }
}

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
