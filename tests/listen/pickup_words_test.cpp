#include "support/catch.hpp"

#include <compline/listen/pickup_words.hpp>
#include <compline/text/bad_input.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace compline;
using listen::PickupSettings;

namespace {

PickupSettings read(const std::string& words) {
    PickupSettings settings;
    listen::read_pickup(words, settings);
    return settings;
}

std::string refusal(const std::string& words) {
    try {
        (void)read(words);
    } catch (const text::BadInput& error) {
        return error.what();
    }
    return "";
}

}  // namespace

TEST_CASE("a player says what the MIDI pickup is set to, in words") {
    const auto set = read("mono from=11 low-first bend=12 cycles=1 ghosts=60 ghost-loudness=0.4");
    CHECK(set.strings == listen::Strings{11, true});
    CHECK(set.bend_range == 12);
    CHECK(set.delay.cycles == 1);
    CHECK(set.cleaning.ghost == time::from_milliseconds(60));
    CHECK(set.cleaning.ghost_loudness == 0.4);
    CHECK(set.cleaning.flicker == listen::Cleaning{}.flicker);
    CHECK(read("double-triggers=off").cleaning.double_trigger == time::Seconds(0));
    CHECK(read("poly").one_channel);
    CHECK(read("mono").strings == listen::Strings{});
    CHECK(read("low-first").strings == listen::Strings{1, true});
    CHECK(read("").strings == std::nullopt);
    CHECK(read("flickers=20 lift-offs=15 lift-off-loudness=1").cleaning ==
          listen::Cleaning{.flicker = time::from_milliseconds(20),
                           .lift_off = time::from_milliseconds(15),
                           .lift_off_loudness = 1});
}

TEST_CASE("what is said later replaces what was said before, and leaves the rest") {
    PickupSettings settings = read("poly bend=12");
    listen::read_pickup("mono", settings);
    CHECK_FALSE(settings.one_channel);
    CHECK(settings.bend_range == 12);
    listen::read_pickup("poly", settings);
    CHECK_FALSE(settings.strings.has_value());
}

TEST_CASE("one word of a MIDI pickup is said anew, and the others stay") {
    CHECK(listen::with_pickup_word("", "bend", "12") == "bend=12");
    CHECK(listen::with_pickup_word("mono bend=2 cycles=1", "bend", "12") ==
          "mono cycles=1 bend=12");
    CHECK(listen::with_pickup_word("poly", "cycles", "1.4") == "poly cycles=1.4");
}

TEST_CASE("a live delay has the usual cycles unless the words have others") {
    const auto usual = listen::live_delay(time::from_milliseconds(9), {time::Seconds(1)}, "poly");
    CHECK(usual == listen::Delay{time::from_milliseconds(9), 1.5, {time::Seconds(1)}});
    CHECK(listen::live_delay(time::Seconds(0), {}, "cycles=0").cycles == 0);
}

TEST_CASE("words that say nothing of a MIDI pickup are refused with those that do") {
    const std::vector<std::pair<std::string, std::string>> table{
        {"stereo", "\"stereo\" is not known here: write mono, poly, from=1"},
        {"bend=2 cylces=1",
         "character 8: \"cylces=1\" is not known here (did you mean cycles?): write mono"},
        {"mono=1", "\"mono=1\" is not known here"},
        {"from=12", "\"12\" for from: write a channel from 1 to 11"},
        {"poly from=1.5", "character 6: \"1.5\" for from: write a whole number"},
        {"bend=-2", "\"-2\" for bend: write semitones from 0 to 96"},
        {"bend=nan", "\"nan\" for bend: write semitones"},
        {"bend=", "\"\" for bend: write semitones"},
        {"bend", "\"\" for bend: write semitones"},
        {"ghosts=0", "\"0\" for ghosts: write off, or milliseconds from 1 to 200"},
        {"ghosts=45ms", "\"45ms\" for ghosts: write off"},
        {"ghost-loudness=35", "\"35\" for ghost-loudness: write a part from 0 to 1"},
        {"cycles=1e9", "\"1e9\" for cycles: write cycles of the wave from 0 to 20"},
        {"poly low-first", "poly is one channel for all strings: leave out"},
        {"bend=2 bend=12", "character 8: bend is there twice: write it once"},
    };
    for (const auto& [words, what] : table) {
        INFO(words << " -> " << refusal(words));
        CHECK(refusal(words).find(what) == 0);
    }
    // Nothing is taken of words that are refused.
    PickupSettings settings;
    CHECK_THROWS_AS(listen::read_pickup("bend=12 stereo", settings), text::BadInput);
    CHECK(settings.bend_range == 2);
}
