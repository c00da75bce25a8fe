// What single strings take besides, in a player's words and taken off what they play.

#include "support/catch.hpp"
#include "support/refusal.hpp"

#include <compline/listen/listener.hpp>
#include <compline/listen/string_offsets.hpp>

#include <string>
#include <utility>
#include <vector>

using namespace compline;
using listen::read_string_offsets;
using time::from_milliseconds;
using time::Seconds;

namespace {

std::string again(const std::string& words) {
    return listen::string_offsets_in_words(read_string_offsets(words));
}

}  // namespace

TEST_CASE("a player says what single strings take besides, in any order") {
    const auto read = read_string_offsets("6=3.2 5=8");
    REQUIRE(read.size() == 6);
    CHECK(read[3] == Seconds(0));
    CHECK(read[4] == from_milliseconds(8));
    CHECK(read[5] == from_milliseconds(3.2));
    CHECK(again("6=3.2 5=8") == "5=8 6=3.2");
    CHECK(again("1=-50, 8=50") == "1=-50 8=50");
    CHECK(again("2=0.0627") == "2=0.063");
    CHECK(again("3=-.5") == "3=-0.5");
    CHECK(read_string_offsets("6=0").empty());
    CHECK(again("1=-0 6=0").empty());
}

TEST_CASE("words that say nothing of a string are refused with what could stand there") {
    const std::vector<std::pair<std::string, std::string>> refused = {
        {"", "no string is named: write a string from 1 to 8"},
        {" ", "no string is named"},
        {"6", "\"6\" is no string's offset: write a string from 1 to 8 and how many"},
        {"E=3", "\"E=3\" is no string's offset"},
        {"0=3", "\"0=3\" is no string's offset"},
        {"9=3", "\"9=3\" is no string's offset"},
        {"06=3", "\"06=3\" is no string's offset"},
        {"-1=3", "\"-1=3\" is no string's offset"},
        {"6=", "\"\" for 6: write milliseconds from -50 to 50"},
        {"6=late", "\"late\" for 6: write milliseconds from -50 to 50"},
        {"5=8 6=50.5", "character 5: \"50.5\" for 6: write milliseconds from -50 to 50"},
        {"6=-51", "\"-51\" for 6"},
        {"6=nan", "\"nan\" for 6"},
        {"6=1e1", "\"1e1\" for 6"},
        {"6=3ms", "\"3ms\" for 6"},
        {"6=3 6=4", "character 5: 6 is there twice: write it once"},
    };
    for (const auto& [words, complaint] : refused) {
        CAPTURE(words);
        CHECK(tests::refusal([&, &words = words] {
                  (void)read_string_offsets(words);
              }).rfind(complaint, 0) == 0);
    }
}

TEST_CASE("what a string takes besides is taken off its notes, where strings are known") {
    listen::PickupSettings settings;
    settings.strings = listen::Strings{};
    settings.delay = {from_milliseconds(5), 0, read_string_offsets("2=-1.5 6=8")};
    const std::vector<midi::TimedMessage> played = {
        {from_milliseconds(100), midi::note_on(6, 40, 80)},
        {from_milliseconds(200), midi::note_on(2, 59, 80)},
        {from_milliseconds(300), midi::note_on(1, 64, 80)}};
    const auto onsets = [&] {
        std::vector<double> ms;
        for (const auto& note : listen::hear(played, settings, Seconds(1)).notes) {
            ms.push_back(note.on.milliseconds());
        }
        return ms;
    };
    const auto by_string = onsets();
    REQUIRE(by_string.size() == 3);
    CHECK(by_string[0] == Approx(87));
    CHECK(by_string[1] == Approx(196.5));
    CHECK(by_string[2] == Approx(295));
    settings.strings.reset();
    settings.one_channel = true;
    const auto together = onsets();
    CHECK(together[0] == Approx(95));
    CHECK(together[1] == Approx(195));
}
