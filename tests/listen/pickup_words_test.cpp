#include "support/catch.hpp"

#include <compline/listen/pickup_words.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace compline;
using listen::Settings;

namespace {

Settings read(const std::string& words) {
    Settings settings;
    listen::read_pickup(words, settings);
    return settings;
}

std::string refusal(const std::string& words) {
    try {
        (void)read(words);
    } catch (const listen::PickupError& error) {
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
    Settings settings = read("poly bend=12");
    listen::read_pickup("mono", settings);
    CHECK_FALSE(settings.one_channel);
    CHECK(settings.bend_range == 12);
    listen::read_pickup("poly", settings);
    CHECK_FALSE(settings.strings.has_value());
}

TEST_CASE("words that say nothing of a MIDI pickup are refused with those that do") {
    const std::vector<std::pair<std::string, std::string>> table{
        {"stereo", "\"stereo\" is not known here: write mono, poly, from=1"},
        {"mono=1", "\"mono=1\" is not known here"},
        {"from=12", "from=12: expected a channel from 1 to 11"},
        {"from=1.5", "from=1.5: expected a whole number"},
        {"bend=-2", "bend=-2: expected semitones from 0 to 96"},
        {"bend=nan", "bend=nan: expected semitones"},
        {"bend=", "bend=: expected semitones"},
        {"ghosts=0", "ghosts=0: expected off, or milliseconds from 1 to 200"},
        {"ghosts=45ms", "ghosts=45ms: expected off"},
        {"ghost-loudness=35", "ghost-loudness=35: expected a part from 0 to 1"},
        {"cycles=1e9", "cycles=1e9: expected cycles of the wave from 0 to 20"},
        {"poly low-first", "poly is one channel for all strings"},
        {"bend=2 bend=12", "bend is there twice"},
    };
    for (const auto& [words, what] : table) {
        INFO(words << " -> " << refusal(words));
        CHECK(refusal(words).find(what) == 0);
    }
    // Nothing is taken of words that are refused.
    Settings settings;
    CHECK_THROWS_AS(listen::read_pickup("bend=12 stereo", settings), listen::PickupError);
    CHECK(settings.bend_range == 2);
}
